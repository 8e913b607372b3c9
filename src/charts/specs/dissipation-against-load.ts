import { assemble } from '../assemble.ts';
import { type Axis, drawable } from '../axis.ts';
import { valueAt } from '../crossings.ts';
import { curveRows, type DrawnLine, endLabels, logAxis } from '../curves.ts';
import { canBeDrawn } from '../distortion.ts';
import { loadAxis, onePanel } from '../explored.ts';
import { fixed, significant, withPrefix } from '../format.ts';
import { type Frame, frameFor } from '../frame.ts';
import { lineLayer, type Panel, strokeLayer, textLayer, xChannel, yChannel } from '../layers.ts';
import { loadLabels, loadRules, placeLoadMarks } from '../load-marks.ts';
import { absentReasons, leftOutNotes, leftOutOf } from '../messages.ts';
import { extent, joined, type Sorted, sortReadings } from '../readings.ts';
import { columnTable } from '../table.ts';
import { lineStyle } from '../theme.ts';
import { linearTicks, logTicks, plainTick, prefixedTick, roundDomain } from '../ticks.ts';
import type {
  ChartResult,
  ChartSize,
  ChartSpec,
  ChartTable,
  ChartText,
  DissipationAgainstLoadData,
  Readings,
} from '../types.ts';

type Line = DrawnLine & { sorted: Sorted };

/**
 * Largest average dissipation of each transistor against load resistance on a logarithmic axis, for a resistor and
 * for a load with 45° between voltage and current. Without two neighbouring readings on one line it is absent.
 */
export function dissipationAgainstLoad(
  data: DissipationAgainstLoadData,
  size: ChartSize = 'wide',
): ChartResult {
  const lines = [lineOf('resistor', data, data.resistiveW, 0), lineOf('45°', data, data.reactiveW, 1)];
  const notes = leftOutNotes(lines.map(({ name, sorted }) => leftOutOf(name, sorted)));
  const table = tableOf(data, notes);
  if (!canBeDrawn(lines)) return { absent: absentReasons.fewReadings('dissipation against load'), table };
  const names = lines.map(({ name }) => name);
  const x = logAxis(lines, frameFor(size, names).width);
  const marks = placeLoadMarks(marksOf(data), x);
  const frame = frameFor(size, names, { rows: marks.rows });
  const panel = panelOf(lines, x, size);
  return {
    spec: specOf(lines, panel, marks.placed, frame),
    text: textOf(data, lines, notes),
    table,
    ...onePanel(loadAxis, { quantity: 'Dissipation', unit: 'W', kind: 'linear' }, lines),
  };
}

function lineOf(name: string, { loadOhm }: DissipationAgainstLoadData, watts: Readings, style: number): Line {
  const sorted = sortReadings(loadOhm, watts, { x: 'log', y: 'linear' });
  return { name, sorted, runs: sorted.runs, style: lineStyle(style) };
}

function marksOf({ chosenOhm }: DissipationAgainstLoadData) {
  return chosenOhm === null
    ? []
    : [{ label: `${withPrefix(chosenOhm, 'Ω', 3)} stated`, loadOhm: chosenOhm, chosen: true }];
}

function panelOf(lines: readonly Line[], x: Axis, size: ChartSize): Panel {
  const [, most] = extent(lines.flatMap(({ runs }) => joined(runs).y)) ?? [0, 1];
  const length = size === 'wide' ? 240 : 210;
  return { x, y: { kind: 'linear', domain: roundDomain(0, most || 1, 5), length }, top: 0 };
}

function specOf(
  lines: readonly Line[],
  panel: Panel,
  marks: ReturnType<typeof placeLoadMarks>['placed'],
  frame: Frame,
): ChartSpec {
  const x = xChannel('x', panel, {
    ticks: logTicks(panel.x, prefixedTick),
    title: 'Load, Ω',
    print: prefixedTick,
  });
  const y = yChannel('y', panel, {
    ...frame,
    ticks: linearTicks(panel.y, panel.y.length / 42),
    title: 'Largest average dissipation of each transistor, W',
    print: plainTick,
  });
  const { labels, leads } = endLabels(lines, panel, frame);
  const beside = loadLabels(marks, frame);
  return assemble(
    frame,
    panel.y.length,
    [
      lineLayer('heat', x, y),
      strokeLayer('load-rule'),
      strokeLayer('lead'),
      textLayer('load-left', 'left'),
      textLayer('load-right', 'right'),
      textLayer('label', 'left'),
    ],
    {
      heat: curveRows(lines, panel),
      'load-rule': loadRules(marks, [panel]),
      lead: leads,
      'load-left': beside.left,
      'load-right': beside.right,
      label: labels,
    },
  );
}

function textOf(
  data: DissipationAgainstLoadData,
  lines: readonly Line[],
  notes: readonly string[],
): ChartText {
  const [from, to] = extent(lines.flatMap(({ runs }) => joined(runs).x)) ?? [0, 0];
  const what = `Largest average dissipation of each transistor in watts, against load from ${withPrefix(from, 'Ω', 3)} to ${withPrefix(to, 'Ω', 3)}, for a resistor and for a load with 45 degrees between voltage and current.`;
  const title =
    chosenTitle(data.chosenOhm, lines) ??
    `Dissipation of each transistor from ${withPrefix(from, 'Ω', 3)} to ${withPrefix(to, 'Ω', 3)}`;
  return { title, description: [what, ...notes].join(' ') };
}

function chosenTitle(chosenOhm: number | null, lines: readonly Line[]): string | null {
  if (!drawable('log', chosenOhm)) return null;
  const [resistor, reactive] = lines.map(({ runs }) =>
    valueAt(joined(runs), chosenOhm, { logX: true, logY: false }),
  );
  if (typeof resistor !== 'number' || typeof reactive !== 'number') return null;
  return `At ${withPrefix(chosenOhm, 'Ω', 3)} a transistor dissipates up to ${withPrefix(resistor, 'W')} with a resistor and ${withPrefix(reactive, 'W')} at 45°`;
}

function tableOf(data: DissipationAgainstLoadData, notes: readonly string[]): ChartTable {
  const watts = (value: number) => fixed(value, 2);
  return columnTable(
    [
      { title: 'Load', unit: 'Ω', values: data.loadOhm, print: (value) => significant(value, 4) },
      { title: 'Each transistor, resistor', unit: 'W', values: data.resistiveW, print: watts },
      { title: 'Each transistor, 45°', unit: 'W', values: data.reactiveW, print: watts },
    ],
    notes,
    data.source,
  );
}
