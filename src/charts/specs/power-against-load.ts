import { assemble } from '../assemble.ts';
import { type Axis, drawable } from '../axis.ts';
import { valueAt } from '../crossings.ts';
import { type DrawnLine, endLabels, logAxis } from '../curves.ts';
import { canBeDrawn, percentDomain } from '../distortion.ts';
import { loadAxis } from '../explored.ts';
import { capital, counted, percent, significant, withPrefix } from '../format.ts';
import { type Frame, withRows } from '../frame.ts';
import { type Panel, strokeLayer, textLayer, xChannel } from '../layers.ts';
import { type LoadMark, loadLabels, loadRules, placeLoadMarks } from '../load-marks.ts';
import { absentReasons } from '../messages.ts';
import {
  exploredPower,
  fittedPower,
  type PowerLines,
  type PowerPanels,
  panelGap,
  powerColumns,
  powerLayers,
  powerLines,
  total,
  withTwoAxes,
} from '../power-panels.ts';
import { extent, joined } from '../readings.ts';
import { columnTable } from '../table.ts';
import { logTicks, prefixedTick, roundDomain, type Ticks } from '../ticks.ts';
import type {
  ChartResult,
  ChartSize,
  ChartSpec,
  ChartTable,
  ChartText,
  PowerAgainstLoadData,
} from '../types.ts';

/**
 * Output power above, and harmonics and total distortion below, against load resistance on one logarithmic axis,
 * with rules at the chosen and the candidate loads. Without two neighbouring readings of power it is absent.
 */
export function powerAgainstLoad(data: PowerAgainstLoadData, size: ChartSize = 'wide'): ChartResult {
  const lines = powerLines(data.loadOhm, data);
  const table = tableOf(data, lines.notes);
  if (!canBeDrawn([lines.power])) return { absent: absentReasons.fewReadings('power against load'), table };
  const { frame, plot: panels } = fittedPower(lines, size, (width) =>
    panelsOf(lines, logAxis([lines.power, ...lines.distortion], width), size),
  );
  const { x } = panels.power;
  const marks = placeLoadMarks(marksOf(data), x);
  return {
    spec: specOf(lines, panels, marks.placed, withRows(frame, marks.rows)),
    text: textOf(data, lines, [...outsideNote(data, x), ...lines.notes]),
    table,
    ...exploredPower(loadAxis, lines),
  };
}

function marksOf({ chosenOhm, candidates }: PowerAgainstLoadData): LoadMark[] {
  const others = candidates.map(({ label, loadOhm }) => ({ label, loadOhm, chosen: false }));
  if (chosenOhm === null) return others;
  return [{ label: `${withPrefix(chosenOhm, 'Ω', 3)} chosen`, loadOhm: chosenOhm, chosen: true }, ...others];
}

function outsideNote(data: PowerAgainstLoadData, { domain: [low, high] }: Axis): string[] {
  const outside = marksOf(data).filter(({ loadOhm }) => loadOhm < low || loadOhm > high);
  if (outside.length === 0) return [];
  return [
    `${counted(outside.length, 'load lies', 'loads lie')} outside of the sweep and ${outside.length === 1 ? 'has' : 'have'} no rule.`,
  ];
}

function panelsOf({ power, distortion }: PowerLines, x: Axis, size: ChartSize): PowerPanels {
  const length = size === 'wide' ? 150 : 130;
  const [least, most] = extent(joined(power.runs).y) ?? [0, 1];
  const domain = roundDomain(Math.min(0, least), most > 0 ? most : 1, 4);
  return {
    power: { x, y: { kind: 'linear', domain, length }, top: 0 },
    distortion: {
      x,
      y: { kind: 'log', domain: percentDomain(distortion), length: length * 1.3 },
      top: length + panelGap,
    },
  };
}

function specOf(
  lines: PowerLines,
  panels: PowerPanels,
  marks: ReturnType<typeof placeLoadMarks>['placed'],
  frame: Frame,
): ChartSpec {
  const { labels, leads } = endLabels(lines.distortion, panels.distortion, frame);
  const beside = loadLabels(marks, frame);
  const ticks = loadTicks(panels.power);
  const across = xChannel('x', panels.power, {
    ...{ ticks, grid: false, title: 'Load resistance, Ω', print: prefixedTick },
  });
  const drawn = powerLayers(lines, panels, { frame, ticks, across });
  const spec = assemble(
    frame,
    panels.distortion.top + panels.distortion.y.length,
    [
      strokeLayer('grid'),
      strokeLayer('load-rule'),
      ...drawn.layers,
      strokeLayer('lead'),
      textLayer('load-right', 'left'),
      textLayer('load-left', 'right'),
      textLayer('label', 'left'),
    ],
    {
      ...drawn.datasets,
      'load-rule': loadRules(marks, [panels.power, panels.distortion]),
      lead: leads,
      'load-left': beside.left,
      'load-right': beside.right,
      label: labels,
    },
  );
  return withTwoAxes(spec);
}

function loadTicks({ x }: Panel): Ticks {
  return logTicks(x, prefixedTick);
}

function textOf(
  data: PowerAgainstLoadData,
  { power, distortion }: PowerLines,
  notes: readonly string[],
): ChartText {
  const { x } = joined(power.runs);
  const [from, to] = extent(x) ?? [0, 0];
  const range = `from ${withPrefix(from, 'Ω', 3)} to ${withPrefix(to, 'Ω', 3)}`;
  const what = `Output power in watts, and second and third harmonic and total distortion in per cent, against load resistance ${range}.`;
  const loads = marksOf(data).map(({ label, loadOhm, chosen }) =>
    chosen ? `${label}.` : `${label}: ${withPrefix(loadOhm, 'Ω', 3)}.`,
  );
  const title = [chosenTitle(data.chosenOhm, power, distortion), peakTitle(power)].filter(
    (part) => part !== null,
  );
  return { title: capital(title.join('; ')), description: [what, ...loads, ...notes].join(' ') };
}

function chosenTitle(
  chosenOhm: number | null,
  power: DrawnLine,
  distortion: readonly DrawnLine[],
): string | null {
  if (!drawable('log', chosenOhm)) return null;
  const watts = valueAt(joined(power.runs), chosenOhm, { logX: true, logY: false });
  const thd = valueAt(joined(distortion.find(({ name }) => name === total)?.runs ?? []), chosenOhm, {
    logX: true,
    logY: true,
  });
  if (watts === null) return null;
  const clean = thd === null ? '' : ` with ${percent(thd / 100)} THD`;
  return `${withPrefix(watts, 'W')}${clean} at ${withPrefix(chosenOhm, 'Ω', 3)}`;
}

function peakTitle({ runs }: DrawnLine): string {
  const { x, y } = joined(runs);
  const [, most] = extent(y) ?? [0, 0];
  const at = y.indexOf(most);
  const edge = at === 0 || at === y.length - 1 ? ', the end of the sweep' : '';
  return `most power, ${withPrefix(most, 'W')}, at ${withPrefix(x[at] ?? 0, 'Ω', 3)}${edge}`;
}

function tableOf(data: PowerAgainstLoadData, notes: readonly string[]): ChartTable {
  return columnTable(
    [
      { title: 'Load', unit: 'Ω', values: data.loadOhm, print: (value) => significant(value, 4) },
      ...powerColumns(data),
    ],
    notes,
    data.source,
  );
}
