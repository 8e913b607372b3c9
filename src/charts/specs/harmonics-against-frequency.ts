import { assemble } from '../assemble.ts';
import { curveRows, endLabels, loneRows } from '../curves.ts';
import {
  canBeDrawn,
  type DistortionLine,
  percentChannel,
  percentOverFrequency,
  printPercent,
  sortRatios,
} from '../distortion.ts';
import { capital, hertz, listed, ordinal, significant } from '../format.ts';
import { type Frame, frameFor } from '../frame.ts';
import { frequencyChannel } from '../frequency.ts';
import { type Reign, reigns } from '../largest.ts';
import { lineLayer, loneLayer, type Panel, strokeLayer, textLayer } from '../layers.ts';
import { absentReasons, cutNotes, leftOutNotes, leftOutOf } from '../messages.ts';
import { linesTable } from '../table.ts';
import { harmonicStyle } from '../theme.ts';
import type {
  ChartResult,
  ChartSize,
  ChartTable,
  ChartText,
  HarmonicsAgainstFrequencyData,
} from '../types.ts';

type Line = DistortionLine & { order: number };

/**
 * Single harmonics in per cent of the fundamental against frequency, both logarithmic, in an aspect ratio of
 * IEC 60263; orders differ in colour, dash and weight and are named at the ends of their lines. Needs two
 * neighbouring positive readings of one order; without them it is absent.
 */
export function harmonicsAgainstFrequency(
  data: HarmonicsAgainstFrequencyData,
  size: ChartSize = 'wide',
): ChartResult {
  const lines = data.orders.map(({ order, ratio }): Line => {
    const sorted = sortRatios(data.frequencyHz, ratio);
    return { order, name: `H${order}`, sorted, runs: sorted.runs, style: harmonicStyle(order) };
  });
  const notes = leftOutNotes(lines.map(({ name, sorted }) => leftOutOf(name, sorted)));
  const table = tableOf(data, notes);
  if (!canBeDrawn(lines)) return { absent: absentReasons.fewReadings('harmonics against frequency'), table };
  const frame = frameFor(
    size,
    lines.map(({ name }) => name),
  );
  const panel = percentOverFrequency(lines, frame.width, size);
  return {
    spec: specOf(lines, panel, frame),
    text: textOf(data, lines, panel, [...cutNotes(lines, panel.y, '%'), ...notes]),
    table,
  };
}

function specOf(lines: readonly Line[], panel: Panel, frame: Frame) {
  const x = frequencyChannel(panel);
  const y = percentChannel('y', panel, frame, { title: 'Harmonic, % of the fundamental' });
  const { labels, leads } = endLabels(lines, panel, frame);
  return assemble(
    frame,
    panel.y.length,
    [lineLayer('curve', x, y), loneLayer('lone', x, y), strokeLayer('lead'), textLayer('label', 'left')],
    { curve: curveRows(lines, panel), lone: loneRows(lines), lead: leads, label: labels },
  );
}

function textOf(
  data: HarmonicsAgainstFrequencyData,
  lines: readonly Line[],
  { x }: Panel,
  notes: readonly string[],
): ChartText {
  const [from, to] = x.domain.map(hertz);
  const names = listed(lines.map(({ order }) => ordinal(order)));
  const what = `The ${names} harmonics of ${data.channel} in per cent of the fundamental against frequency from ${from} to ${to}, both on logarithmic axes.`;
  return { title: titleOf(reigns(data.frequencyHz, data.orders)), description: [what, ...notes].join(' ') };
}

/** Says which harmonic is the largest, and where that changes. */
function titleOf(found: readonly Reign[]): string {
  const [first, second, third] = found;
  if (first === undefined) return 'Single harmonics against frequency';
  const opening = `${capital(ordinal(first.order))} harmonic is the largest`;
  if (second === undefined) return `${opening} from ${hertz(first.fromHz)} to ${hertz(first.toHz)}`;
  if (third === undefined)
    return `${opening} up to ${hertz(second.fromHz)}, the ${ordinal(second.order)} from there on`;
  if (found.length === 3 && third.order === first.order) return middleTitle(second, first.order);
  return `${opening} at ${hertz(first.fromHz)}; which one leads changes ${found.length - 1} times up to ${hertz(found.at(-1)?.toHz ?? 0)}`;
}

function middleTitle({ order, fromHz, toHz }: Reign, elsewhere: number): string {
  const range = `from ${hertz(fromHz)} to ${hertz(toHz)}`;
  return `${capital(ordinal(order))} harmonic is the largest ${range}, the ${ordinal(elsewhere)} below and above`;
}

function tableOf(
  { frequencyHz, orders, source }: HarmonicsAgainstFrequencyData,
  notes: readonly string[],
): ChartTable {
  return linesTable(
    {
      x: { title: 'Frequency', unit: 'Hz', print: (value) => significant(value, 4) },
      lines: orders.map(({ order, ratio }) => ({ name: `H${order}`, x: frequencyHz, values: ratio })),
      value: { title: 'Harmonic', unit: '%', print: printPercent },
    },
    notes,
    source,
  );
}
