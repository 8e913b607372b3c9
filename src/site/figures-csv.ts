import type { Figure } from '../figures/index.ts';
import type { Log } from '../journal/types.ts';
import { type Cell, csvText } from './csv-text.ts';
import { unitText } from './unit-text.ts';

/** What a row is of: a figure with the capture or the repeats that it belongs to. */
interface Row {
  log: string;
  source: string;
  version: string | null;
  figure: Figure;
}

/** A column of the table of figures, as a Table Schema describes it. */
interface Field {
  name: string;
  type: 'string' | 'number';
  title: string;
  description: string;
  constraints?: { required: true };
  cell: (row: Row) => Cell;
}

const required = { constraints: { required: true } } as const;

const fields: readonly Field[] = [
  {
    ...{ name: 'log', type: 'string', title: 'Log', ...required },
    description: 'Path of the log’s page.',
    cell: ({ log }) => log,
  },
  {
    ...{ name: 'capture', type: 'string', title: 'Capture', ...required },
    description: 'Path of the capture’s page; for the mean of repeats, the log with the name of the repeats.',
    cell: ({ source }) => source,
  },
  {
    ...{ name: 'version', type: 'string', title: 'Version' },
    description: 'The version of the amplifier that was measured.',
    cell: ({ version }) => version,
  },
  {
    ...{ name: 'channel', type: 'string', title: 'Channel' },
    description: 'The channel of the capture.',
    cell: ({ figure }) => figure.subject ?? null,
  },
  {
    ...{ name: 'figure', type: 'string', title: 'Figure', ...required },
    description: 'What was computed, by the name that records and commands use.',
    cell: ({ figure }) => figure.id,
  },
  {
    ...{ name: 'value', type: 'number', title: 'Value' },
    description: 'In SI units; ratios are plain numbers, so that 0.01 is 1 %.',
    cell: ({ figure }) => figure.value,
  },
  {
    ...{ name: 'unit', type: 'string', title: 'Unit', ...required },
    description: 'Unit of value, low and high; 1 for a plain number.',
    cell: ({ figure }) => unitText(figure),
  },
  {
    ...{ name: 'low', type: 'number', title: 'Lower end' },
    description: 'Lower end of the 95 % interval, where there is one.',
    cell: ({ figure }) => figure.low ?? null,
  },
  {
    ...{ name: 'high', type: 'number', title: 'Upper end' },
    description: 'Upper end of the 95 % interval, where there is one.',
    cell: ({ figure }) => figure.high ?? null,
  },
  {
    ...{ name: 'remark', type: 'string', title: 'Remark' },
    description: 'What must be said beside the value.',
    cell: ({ figure }) => figure.remark ?? null,
  },
  {
    ...{ name: 'absent', type: 'string', title: 'Why there is none' },
    description: 'Why the data do not support the figure, where it has no value.',
    cell: ({ figure }) => figure.absent ?? null,
  },
  {
    ...{ name: 'conditions', type: 'string', title: 'Conditions' },
    description: 'Under what conditions, as name and value.',
    cell: ({ figure }) =>
      Object.entries(figure.conditions)
        .map(([name, value]) => `${name}: ${value}`)
        .join('; ') || null,
  },
  {
    ...{ name: 'method', type: 'string', title: 'Method', ...required },
    description: 'Section of the methods page that holds formulas and sources.',
    cell: ({ figure }) => figure.provenance.method,
  },
  {
    ...{ name: 'sha256', type: 'string', title: 'SHA-256' },
    description: 'Of the file that the figure was computed from.',
    cell: ({ figure }) => figure.provenance.sha256,
  },
];

/** The table of figures as a Table Schema, in the order of its columns. */
export const figuresSchema = { fields: fields.map(({ cell: _cell, ...field }) => field) };

/** Every figure of some logs, those of their captures and the means of their repeats, one to a row. */
export function figuresCsv(logs: readonly Log[]): string {
  const rows = logs.flatMap(rowsOf);
  return csvText(
    fields.map(({ name }) => name),
    rows.map((row) => fields.map(({ cell }) => cell(row))),
  );
}

function rowsOf({ id, captures, repeats }: Log): Row[] {
  const single = captures.flatMap((capture) =>
    capture.figures.map((figure) => ({ log: id, source: capture.id, version: capture.version, figure })),
  );
  const means = repeats.flatMap(({ data, repeated, captures: members }) =>
    repeated.map(({ figure }) => ({
      ...{ log: id, source: `${id}/${data.id}`, figure },
      version: members[0]?.version ?? null,
    })),
  );
  return [...single, ...means];
}
