import { linesTable } from '../../charts/table.ts';
import {
  csvHeader,
  csvRows,
  type OverlayState,
  placeText,
  type Trace,
  valueNumber,
} from '../../overlay/index.ts';
import { csvText } from '../../site/csv-text.ts';
import { element, html } from './elements.ts';

/** Shows the numbers of an overlay in a table, and offers all of them as a file. */
export function showNumbers(traces: readonly Trace[], { view }: OverlayState, unit: string): void {
  const isPower = view.along === 'power';
  const first = traces[0]?.unit ?? '';
  const table = linesTable(
    {
      x: {
        title: isPower ? 'Output power' : 'Frequency',
        unit: '',
        print: (place) => placeText(place, view),
      },
      lines: traces.map(({ title, x, y }) => ({ name: title, x, values: y })),
      value: { title: view.quantity, unit, print: (value) => valueNumber(value, first) },
    },
    [],
    'the CSV file of this view',
  );
  const heads = table.columns.map(({ title, unit: of, numeric }) => {
    const tail = of ? [html('span', { class: 'unit' }, `, ${of}`)] : [];
    return html('th', { scope: 'col', class: numeric ? 'number' : '' }, title, ...tail);
  });
  const rows = table.rows.map((row) =>
    html(
      'tr',
      {},
      ...row.map((cell, i) => html('td', { class: table.columns[i]?.numeric ? 'number' : '' }, cell)),
    ),
  );
  element('overlay-table', HTMLTableElement).replaceChildren(
    html('thead', {}, html('tr', {}, ...heads)),
    html('tbody', {}, ...rows),
  );
  element('overlay-table-note', HTMLParagraphElement).textContent = table.note ?? '';
  offerFile(csvText(csvHeader({ view }), csvRows(traces, unit)));
}

/** Puts a text behind the link to the file, in the place of the one before. */
function offerFile(text: string): void {
  const link = element('overlay-csv', HTMLAnchorElement);
  URL.revokeObjectURL(link.href);
  link.href = URL.createObjectURL(new Blob([text], { type: 'text/csv' }));
}
