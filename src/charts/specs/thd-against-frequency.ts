import { assemble } from '../assemble.ts';
import { compareLines, comparisonTitle } from '../comparison.ts';
import { valueAt } from '../crossings.ts';
import { curveRows, endLabels, loneRows } from '../curves.ts';
import {
  type Band,
  bandRows,
  canBeDrawn,
  type DistortionLine,
  decadesOverFrequency,
  percentChannel,
  percentNumbers,
  printPercent,
  sortRatios,
  upperEdges,
} from '../distortion.ts';
import { frequencyAxis, onePanel, withEdges } from '../explored.ts';
import { hertz, listed, percent, significant } from '../format.ts';
import { type Frame, fitted, frameFor } from '../frame.ts';
import { frequencyChannel } from '../frequency.ts';
import { bandLayer, lineLayer, loneLayer, type Panel, strokeLayer, textLayer } from '../layers.ts';
import { absentReasons, cutNotes, leftOutNotes, leftOutOf } from '../messages.ts';
import { extent, joined, type Run } from '../readings.ts';
import { linesTable } from '../table.ts';
import { lineStyle } from '../theme.ts';
import type { ChartResult, ChartSize, ChartTable, ChartText, ThdAgainstFrequencyData } from '../types.ts';

/**
 * Distortion in per cent against frequency, both logarithmic, in an aspect ratio of IEC 60263; 95 % intervals
 * are bands. Needs two neighbouring positive readings on one line; without them it is absent.
 */
export function thdAgainstFrequency(data: ThdAgainstFrequencyData, size: ChartSize = 'wide'): ChartResult {
  const lines = data.series.map(({ name, frequencyHz, ratio }, i): DistortionLine => {
    const sorted = sortRatios(frequencyHz, ratio);
    return { name, sorted, runs: sorted.runs, style: lineStyle(i) };
  });
  const notes = leftOutNotes(lines.map(({ name, sorted }) => leftOutOf(name, sorted)));
  const table = tableOf(data, notes);
  if (!canBeDrawn(lines))
    return { absent: absentReasons.fewReadings(`${data.quantity} against frequency`), table };
  const { frame, plot: panel } = fitted(
    frameFor(size, lines.length > 1 ? lines.map(({ name }) => name) : []),
    ({ width }) => decadesOverFrequency([...lines, ...upperEdges(bandsOf(data))], width, size),
    percentNumbers,
  );
  return {
    spec: specOf(data, lines, panel, frame),
    text: textOf(data, lines, panel, [...cutNotes(lines, panel.y, '%'), ...notes]),
    table,
    ...onePanel(
      frequencyAxis,
      { quantity: data.quantity, unit: '%', kind: 'log' },
      withEdges(lines, data.series, ({ frequencyHz }) => frequencyHz),
    ),
  };
}

function bandsOf({ series }: ThdAgainstFrequencyData): Band[] {
  return series.flatMap(({ frequencyHz: x, low, high }, i) =>
    low === undefined || high === undefined ? [] : [{ x, low, high, fill: lineStyle(i).stroke }],
  );
}

function specOf(data: ThdAgainstFrequencyData, lines: readonly DistortionLine[], panel: Panel, frame: Frame) {
  const x = frequencyChannel(panel);
  const y = (field: string) => percentChannel(field, panel, frame, { title: `${data.quantity}, %` });
  const { labels, leads } = lines.length > 1 ? endLabels(lines, panel, frame) : { labels: [], leads: [] };
  return assemble(
    frame,
    panel.y.length,
    [
      bandLayer('band', x, y('high'), 'low'),
      lineLayer('curve', x, y('y')),
      loneLayer('lone', x, y('y')),
      strokeLayer('lead'),
      textLayer('label', 'left'),
    ],
    {
      band: bandsOf(data).flatMap((band, i) => bandRows(band, panel, i)),
      curve: curveRows(lines, panel),
      lone: loneRows(lines),
      lead: leads,
      label: labels,
    },
  );
}

function textOf(
  data: ThdAgainstFrequencyData,
  lines: readonly DistortionLine[],
  { x }: Panel,
  notes: readonly string[],
): ChartText {
  const [from, to] = x.domain.map(hertz);
  const names = listed(lines.map(({ name }) => name));
  const { quantity } = data;
  const band = bandsOf(data).length > 0 ? ['A band shows the 95 % interval of each reading.'] : [];
  const what = `${quantity} of ${names} in per cent against frequency from ${from} to ${to}, both on logarithmic axes.`;
  return { title: titleOf(quantity, lines), description: [what, ...band, ...notes].join(' ') };
}

function titleOf(quantity: string, lines: readonly DistortionLine[]): string {
  const [one, other, third] = lines.map(({ name, runs }) => ({ name, run: joined(runs) }));
  if (one === undefined) return quantity;
  if (other === undefined) return rangeTitle(quantity, one.run);
  const comparison = third === undefined ? compareLines(one.run, other.run) : null;
  if (comparison !== null)
    return `${quantity}: ${comparisonTitle([one.name, other.name], comparison, hertz)}`;
  return valuesTitle(quantity, lines);
}

function rangeTitle(quantity: string, { x, y }: Run): string {
  const at = (value: number) => `${percent(value / 100)} at ${hertz(x[y.indexOf(value)] ?? 0)}`;
  const [low, high] = extent(y) ?? [0, 0];
  return `${quantity}: lowest ${at(low)}, highest ${at(high)}`;
}

/** Values of several lines at one frequency. */
function valuesTitle(quantity: string, lines: readonly DistortionLine[]): string {
  const values = lines.flatMap(({ name, runs }) => {
    const value = valueAt(joined(runs), 1000, { logX: true, logY: true });
    return value === null ? [] : [`${name} ${percent(value / 100)}`];
  });
  return values.length === 0 ? `${quantity} against frequency` : `${quantity} at 1 kHz: ${listed(values)}`;
}

function tableOf(
  { quantity, series, source }: ThdAgainstFrequencyData,
  notes: readonly string[],
): ChartTable {
  return linesTable(
    {
      x: { title: 'Frequency', unit: 'Hz', print: (value) => significant(value, 4) },
      lines: series.map(({ name, frequencyHz, ratio }) => ({ name, x: frequencyHz, values: ratio })),
      value: { title: quantity, unit: '%', print: printPercent },
    },
    notes,
    source,
  );
}
