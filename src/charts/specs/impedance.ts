import { assemble } from '../assemble.ts';
import { curveRows, type DrawnLine, endLabels, loneRows } from '../curves.ts';
import { canBeDrawn, decadesOverFrequency, percentNumbers } from '../distortion.ts';
import { hertz, listed, significant, withPrefix } from '../format.ts';
import { type Frame, fitted, frameFor } from '../frame.ts';
import { frequencyChannel } from '../frequency.ts';
import { lineLayer, loneLayer, type Panel, strokeLayer, textLayer, yChannel } from '../layers.ts';
import { absentReasons, leftOutNotes, leftOutOf } from '../messages.ts';
import { extent, joined, type Sorted, sortReadings } from '../readings.ts';
import { linesTable } from '../table.ts';
import { lineStyle } from '../theme.ts';
import { logTicks, plainTick } from '../ticks.ts';
import type { ChartResult, ChartSize, ChartTable, ChartText, ImpedanceData } from '../types.ts';

type Line = DrawnLine & { sorted: Sorted };

/**
 * Modulus of impedance in ohms against frequency, both logarithmic, in an aspect ratio of IEC 60263. Needs two
 * neighbouring positive readings; without them it is absent.
 */
export function impedance(data: ImpedanceData, size: ChartSize = 'wide'): ChartResult {
  const lines = data.channels.map(({ name, frequencyHz, ohm }, i): Line => {
    const sorted = sortReadings(frequencyHz, ohm, { x: 'log', y: 'log' });
    return { name, sorted, runs: sorted.runs, style: lineStyle(i) };
  });
  const notes = leftOutNotes(lines.map(({ name, sorted }) => leftOutOf(name, sorted)));
  const table = tableOf(data, notes);
  if (!canBeDrawn(lines)) return { absent: absentReasons.fewReadings('impedance against frequency'), table };
  const { frame, plot: panel } = fitted(
    frameFor(size, lines.length > 1 ? lines.map(({ name }) => name) : []),
    ({ width }) => decadesOverFrequency(lines, width, size),
    percentNumbers,
  );
  return { spec: specOf(lines, panel, frame), text: textOf(lines, panel, notes), table };
}

function specOf(lines: readonly Line[], panel: Panel, frame: Frame) {
  const x = frequencyChannel(panel);
  const ticks = logTicks(panel.y, plainTick, true);
  const y = yChannel('y', panel, { ...frame, ticks, title: 'Impedance, Ω', print: plainTick });
  const { labels, leads } = lines.length > 1 ? endLabels(lines, panel, frame) : { labels: [], leads: [] };
  return assemble(
    frame,
    panel.y.length,
    [lineLayer('curve', x, y), loneLayer('lone', x, y), strokeLayer('lead'), textLayer('label', 'left')],
    { curve: curveRows(lines, panel), lone: loneRows(lines), lead: leads, label: labels },
  );
}

function textOf(lines: readonly Line[], { x }: Panel, notes: readonly string[]): ChartText {
  const [from, to] = x.domain.map(hertz);
  const names = listed(lines.map(({ name }) => name));
  const what = `Modulus of the impedance of ${names} against frequency from ${from} to ${to}, both on logarithmic axes.`;
  return {
    title: listed(lines.map((line) => rangeText(line, lines.length > 1))),
    description: [what, ...notes].join(' '),
  };
}

function rangeText({ name, runs }: Line, named: boolean): string {
  const { x, y } = joined(runs);
  const [low, high] = extent(y) ?? [0, 0];
  const at = (value: number) => `${withPrefix(value, 'Ω', 3)} at ${hertz(x[y.indexOf(value)] ?? 0)}`;
  return `${named ? `${name}: lowest` : 'Lowest'} ${at(low)}, highest ${at(high)}`;
}

function tableOf({ channels, source }: ImpedanceData, notes: readonly string[]): ChartTable {
  return linesTable(
    {
      x: { title: 'Frequency', unit: 'Hz', print: (value) => significant(value, 4) },
      lines: channels.map(({ name, frequencyHz, ohm }) => ({ name, x: frequencyHz, values: ohm })),
      value: { title: 'Impedance', unit: 'Ω', print: (value) => significant(value, 4) },
    },
    notes,
    source,
  );
}
