import { assemble } from './assemble.ts';
import { curveRows, endLabels, loneRows } from './curves.ts';
import {
  canBeDrawn,
  type DistortionLine,
  percentChannel,
  percentNumbers,
  printPercent,
  sortRatios,
} from './distortion.ts';
import { capital, listed, ordinal, significant } from './format.ts';
import { type Frame, fitted, frameFor } from './frame.ts';
import { type Reign, reigns } from './largest.ts';
import { lineLayer, loneLayer, type Panel, strokeLayer, textLayer, type xChannel } from './layers.ts';
import { absentReasons, cutNotes, leftOutNotes, leftOutOf } from './messages.ts';
import { linesTable } from './table.ts';
import { harmonicStyle } from './theme.ts';
import type { ChartResult, ChartSize, ChartTable, ChartText, Readings } from './types.ts';

/** Harmonics of one channel over an axis; ratios are plain, re the fundamental. */
export interface HarmonicLines {
  channel: string;
  orders: readonly { order: number; ratio: Readings }[];
  source?: string;
}

/** What harmonics are drawn over: where the readings stand and how the axis looks and reads. */
export interface Abscissa {
  /** "frequency". */
  name: string;
  unit: string;
  places: Readings;
  print(place: number): string;
  panel(lines: readonly Pick<DistortionLine, 'runs'>[], width: number, size: ChartSize): Panel;
  channel(panel: Panel): ReturnType<typeof xChannel>;
}

type Line = DistortionLine & { order: number };

/**
 * Single harmonics in per cent of the fundamental, both axes logarithmic; orders differ in colour, dash and weight
 * and are named at the ends of their lines. Needs two neighbouring positive readings of one order; without them it
 * is absent.
 */
export function harmonicsOver(abscissa: Abscissa, data: HarmonicLines, size: ChartSize): ChartResult {
  const lines = data.orders.map(({ order, ratio }): Line => {
    const sorted = sortRatios(abscissa.places, ratio);
    return { order, name: `H${order}`, sorted, runs: sorted.runs, style: harmonicStyle(order) };
  });
  const notes = leftOutNotes(lines.map(({ name, sorted }) => leftOutOf(name, sorted)));
  const table = tableOf(abscissa, data, notes);
  if (!canBeDrawn(lines))
    return { absent: absentReasons.fewReadings(`harmonics against ${abscissa.name}`), table };
  const names = lines.map(({ name }) => name);
  const { frame, plot: panel } = fitted(
    frameFor(size, names),
    ({ width }) => abscissa.panel(lines, width, size),
    percentNumbers,
  );
  return {
    spec: specOf(abscissa, lines, panel, frame),
    text: textOf(abscissa, data, panel, [...cutNotes(lines, panel.y, '%'), ...notes]),
    table,
  };
}

function specOf(abscissa: Abscissa, lines: readonly Line[], panel: Panel, frame: Frame) {
  const x = abscissa.channel(panel);
  const y = percentChannel('y', panel, frame, { title: 'Harmonic, % of the fundamental' });
  const { labels, leads } = endLabels(lines, panel, frame);
  return assemble(
    frame,
    panel.y.length,
    [lineLayer('curve', x, y), loneLayer('lone', x, y), strokeLayer('lead'), textLayer('label', 'left')],
    { curve: curveRows(lines, panel), lone: loneRows(lines), lead: leads, label: labels },
  );
}

function textOf(abscissa: Abscissa, data: HarmonicLines, { x }: Panel, notes: readonly string[]): ChartText {
  const { name, places, print } = abscissa;
  const [from, to] = x.domain.map(print);
  const orders = listed(data.orders.map(({ order }) => ordinal(order)));
  const what = `The ${orders} harmonics of ${data.channel} in per cent of the fundamental against ${name} from ${from} to ${to}, both on logarithmic axes.`;
  return { title: titleOf(abscissa, reigns(places, data.orders)), description: [what, ...notes].join(' ') };
}

/** Says which harmonic is the largest, and where that changes. */
function titleOf({ name, print }: Abscissa, found: readonly Reign[]): string {
  const [first, second, third] = found;
  if (first === undefined) return `Single harmonics against ${name}`;
  const opening = `${capital(ordinal(first.order))} harmonic is the largest`;
  if (second === undefined) return `${opening} from ${print(first.from)} to ${print(first.to)}`;
  if (third === undefined)
    return `${opening} up to ${print(second.from)}, the ${ordinal(second.order)} from there on`;
  if (found.length === 3 && third.order === first.order) return middleTitle(second, first.order, print);
  return lastTitle(found, print);
}

function middleTitle({ order, from, to }: Reign, elsewhere: number, print: Abscissa['print']): string {
  const range = `from ${print(from)} to ${print(to)}`;
  return `${capital(ordinal(order))} harmonic is the largest ${range}, the ${ordinal(elsewhere)} below and above`;
}

/** Where the lead changes often, as in noise, the title says who keeps it at the end and since when. */
function lastTitle(found: readonly Reign[], print: Abscissa['print']): string {
  const last = found.at(-1);
  if (last === undefined) return '';
  const range = `from ${print(last.from)} to ${print(last.to)}`;
  return `${capital(ordinal(last.order))} harmonic is the largest ${range}; below that the lead changes ${found.length - 1} times`;
}

function tableOf(
  { name, unit, places }: Abscissa,
  { orders, source }: HarmonicLines,
  notes: readonly string[],
): ChartTable {
  return linesTable(
    {
      x: { title: capital(name), unit, print: (value) => significant(value, 4) },
      lines: orders.map(({ order, ratio }) => ({ name: `H${order}`, x: places, values: ratio })),
      value: { title: 'Harmonic', unit: '%', print: printPercent },
    },
    notes,
    source,
  );
}
