import { assemble } from '../assemble.ts';
import { type Axis, drawable } from '../axis.ts';
import { valueAt } from '../crossings.ts';
import { curveRows, type DrawnLine, endLabels, logAxis, loneRows } from '../curves.ts';
import { canBeDrawn, percentChannel, percentDomain, printPercent, sortRatios } from '../distortion.ts';
import { capital, counted, fixed, percent, significant, withPrefix } from '../format.ts';
import { type Frame, frameFor } from '../frame.ts';
import {
  lineLayer,
  loneLayer,
  type Panel,
  panelRules,
  strokeLayer,
  textLayer,
  xChannel,
  yChannel,
} from '../layers.ts';
import { type LoadMark, loadLabels, loadRules, placeLoadMarks } from '../load-marks.ts';
import { absentReasons, leftOutNotes, leftOutOf } from '../messages.ts';
import { extent, joined, type Sorted, sortReadings } from '../readings.ts';
import { columnTable } from '../table.ts';
import { harmonicStyle, lineStyle } from '../theme.ts';
import { linearTicks, logTicks, plainTick, prefixedTick, roundDomain, type Ticks } from '../ticks.ts';
import type {
  ChartLayer,
  ChartResult,
  ChartSize,
  ChartSpec,
  ChartTable,
  ChartText,
  PowerAgainstLoadData,
} from '../types.ts';

type Line = DrawnLine & { sorted: Sorted };

interface Panels {
  power: Panel;
  distortion: Panel;
}

const gap = 44;
const total = 'THD';

/**
 * Output power above, and harmonics and total distortion below, against load resistance on one logarithmic axis,
 * with rules at the chosen and the candidate loads. Without two neighbouring readings of power it is absent.
 */
export function powerAgainstLoad(data: PowerAgainstLoadData, size: ChartSize = 'wide'): ChartResult {
  const power = powerLine(data);
  const distortion = distortionLines(data);
  const notes = leftOutNotes([power, ...distortion].map(({ name, sorted }) => leftOutOf(name, sorted)));
  const table = tableOf(data, notes);
  if (!canBeDrawn([power])) return { absent: absentReasons.fewReadings('power against load'), table };
  const x = logAxis(
    [power, ...distortion],
    frameFor(
      size,
      distortion.map(({ name }) => name),
    ).width,
  );
  const marks = placeLoadMarks(marksOf(data), x);
  const frame = frameFor(
    size,
    distortion.map(({ name }) => name),
    { rows: marks.rows },
  );
  const panels = panelsOf(power, distortion, x, size);
  const outside = outsideNote(data, x);
  return {
    spec: specOf(power, distortion, panels, marks.placed, frame),
    text: textOf(data, power, distortion, [...outside, ...notes]),
    table,
  };
}

function powerLine({ loadOhm, powerW }: PowerAgainstLoadData): Line {
  const sorted = sortReadings(loadOhm, powerW, { x: 'log', y: 'linear' });
  return { name: 'Output power', sorted, runs: sorted.runs, style: { ...lineStyle(4), weight: 1.8 } };
}

function distortionLines({ loadOhm, secondRatio, thirdRatio, thdRatio }: PowerAgainstLoadData): Line[] {
  const line = (name: string, ratio: PowerAgainstLoadData['thdRatio'], style: Line['style']) => {
    const sorted = sortRatios(loadOhm, ratio);
    return { name, sorted, runs: sorted.runs, style };
  };
  return [
    line('H3', thirdRatio, harmonicStyle(3)),
    line('H2', secondRatio, harmonicStyle(2)),
    line(total, thdRatio, lineStyle(4)),
  ];
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

function panelsOf(power: Line, distortion: readonly Line[], x: Axis, size: ChartSize): Panels {
  const length = size === 'wide' ? 150 : 130;
  const [least, most] = extent(joined(power.runs).y) ?? [0, 1];
  const domain = roundDomain(Math.min(0, least), most > 0 ? most : 1, 4);
  return {
    power: { x, y: { kind: 'linear', domain, length }, top: 0 },
    distortion: {
      x,
      y: { kind: 'log', domain: percentDomain(distortion), length: length * 1.3 },
      top: length + gap,
    },
  };
}

function specOf(
  power: Line,
  distortion: readonly Line[],
  panels: Panels,
  marks: ReturnType<typeof placeLoadMarks>['placed'],
  frame: Frame,
): ChartSpec {
  const height = panels.distortion.top + panels.distortion.y.length;
  const { labels, leads } = endLabels(distortion, panels.distortion, frame);
  const beside = loadLabels(marks, frame);
  const spec = assemble(
    frame,
    height,
    [
      strokeLayer('grid'),
      strokeLayer('load-rule'),
      ...panelLayers(panels, frame),
      strokeLayer('lead'),
      textLayer('load-left', 'left'),
      textLayer('load-right', 'right'),
      textLayer('label', 'left'),
    ],
    {
      grid: panelRules(loadTicks(panels.power), [panels.power, panels.distortion]),
      'load-rule': loadRules(marks, [panels.power, panels.distortion]),
      power: curveRows([power], panels.power),
      'power-lone': loneRows([power]),
      distortion: curveRows(distortion, panels.distortion),
      'distortion-lone': loneRows(distortion),
      lead: leads,
      'load-left': beside.left,
      'load-right': beside.right,
      label: labels,
    },
  );
  return { ...spec, resolve: { scale: { y: 'independent' } } };
}

function panelLayers({ power, distortion }: Panels, frame: Frame): ChartLayer[] {
  const x = xChannel('x', power, {
    ticks: loadTicks(power),
    grid: false,
    title: 'Load resistance, Ω',
    print: prefixedTick,
  });
  const watts = yChannel('y', power, {
    ...frame,
    ticks: linearTicks(power.y, power.y.length / 36),
    title: 'Output power, W',
    print: plainTick,
  });
  const ratio = percentChannel('y', distortion, { ...frame, rows: 0 }, { title: 'Distortion, %' });
  return [
    { layer: [lineLayer('power', x, watts), loneLayer('power-lone', x, watts)] },
    { layer: [lineLayer('distortion', x, ratio), loneLayer('distortion-lone', x, ratio)] },
  ];
}

function loadTicks({ x }: Panel): Ticks {
  return logTicks(x, prefixedTick);
}

function textOf(
  data: PowerAgainstLoadData,
  power: Line,
  distortion: readonly Line[],
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

function chosenTitle(chosenOhm: number | null, power: Line, distortion: readonly Line[]): string | null {
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

function peakTitle({ runs }: Line): string {
  const { x, y } = joined(runs);
  const [, most] = extent(y) ?? [0, 0];
  const at = y.indexOf(most);
  const edge = at === 0 || at === y.length - 1 ? ', the end of the sweep' : '';
  return `most power, ${withPrefix(most, 'W')}, at ${withPrefix(x[at] ?? 0, 'Ω', 3)}${edge}`;
}

function tableOf(data: PowerAgainstLoadData, notes: readonly string[]): ChartTable {
  const ratio = (title: string, values: PowerAgainstLoadData['thdRatio']) => ({
    title,
    unit: '%',
    values,
    print: printPercent,
  });
  return columnTable(
    [
      { title: 'Load', unit: 'Ω', values: data.loadOhm, print: (value) => significant(value, 4) },
      { title: 'Output power', unit: 'W', values: data.powerW, print: (value) => fixed(value, 2) },
      ratio('Second harmonic', data.secondRatio),
      ratio('Third harmonic', data.thirdRatio),
      ratio('THD', data.thdRatio),
    ],
    notes,
    data.source,
  );
}
