import { assemble } from '../assemble.ts';
import { curveRows, type DrawnLine } from '../curves.ts';
import { canBeDrawn } from '../distortion.ts';
import { justLine, powerAxis } from '../explored.ts';
import { fixed, percent, withPrefix } from '../format.ts';
import { type Frame, frameFor } from '../frame.ts';
import { lineLayer, type Panel, panelRules, strokeLayer, xChannel, yChannel } from '../layers.ts';
import { absentReasons, leftOutNotes, leftOutOf } from '../messages.ts';
import { extent, joined, type Sorted, sortReadings } from '../readings.ts';
import { columnTable } from '../table.ts';
import { lineStyle } from '../theme.ts';
import { linearTicks, plainTick, roundDomain } from '../ticks.ts';
import type {
  ChartResult,
  ChartSize,
  ChartSpec,
  ChartTable,
  ChartText,
  DissipationAgainstPowerData,
  Readings,
} from '../types.ts';

type Line = DrawnLine & { sorted: Sorted };

interface Panels {
  heat: Panel;
  efficiency: Panel;
}

const gap = 44;

/**
 * Average dissipation of each transistor above and efficiency below, against output power from none to the largest.
 * Without two neighbouring readings of dissipation it is absent.
 */
export function dissipationAgainstPower(
  data: DissipationAgainstPowerData,
  size: ChartSize = 'wide',
): ChartResult {
  const heat = lineOf('Dissipation', data.powerW, data.deviceW, 0);
  const share = Array.from(data.efficiency, (ratio) => (ratio === null ? null : 100 * ratio));
  const efficiency = lineOf('Efficiency', data.powerW, share, 4);
  const notes = leftOutNotes([heat, efficiency].map(({ name, sorted }) => leftOutOf(name, sorted)));
  const table = tableOf(data, share, notes);
  if (!canBeDrawn([heat])) return { absent: absentReasons.fewReadings('dissipation against power'), table };
  const frame = frameFor(size, []);
  const panels = panelsOf(heat, efficiency, frame, size);
  return {
    spec: specOf(heat, efficiency, panels, frame),
    text: textOf(heat, efficiency, notes),
    table,
    explored: {
      x: { ...powerAxis, kind: 'linear' },
      panels: [
        { quantity: 'Dissipation', unit: 'W', kind: 'linear', lines: [justLine(heat)] },
        { quantity: 'Efficiency', unit: '%', kind: 'linear', lines: [justLine(efficiency)] },
      ],
    },
  };
}

function lineOf(name: string, powerW: Readings, values: Readings, style: number): Line {
  const sorted = sortReadings(powerW, values, { x: 'linear', y: 'linear' });
  return { name, sorted, runs: sorted.runs, style: lineStyle(style) };
}

function panelsOf(heat: Line, efficiency: Line, { width }: Frame, size: ChartSize): Panels {
  const length = size === 'wide' ? 150 : 130;
  const most = (line: Line, of: 'x' | 'y') => extent(joined(line.runs)[of])?.[1] ?? 0;
  const x = { kind: 'linear' as const, domain: [0, most(heat, 'x') || 1] as const, length: width };
  const y = (line: Line) => ({
    kind: 'linear' as const,
    domain: roundDomain(0, most(line, 'y') || 1, 4),
    length,
  });
  return { heat: { x, y: y(heat), top: 0 }, efficiency: { x, y: y(efficiency), top: length + gap } };
}

function specOf(heat: Line, efficiency: Line, panels: Panels, frame: Frame): ChartSpec {
  const ticks = linearTicks(panels.heat.x, panels.heat.x.length / 70);
  const x = xChannel('x', panels.heat, { ticks, grid: false, title: 'Output power, W', print: plainTick });
  const y = (panel: Panel, title: string) =>
    yChannel('y', panel, {
      ...frame,
      ticks: linearTicks(panel.y, panel.y.length / 36),
      title,
      print: plainTick,
    });
  const height = panels.efficiency.top + panels.efficiency.y.length;
  const spec = assemble(
    frame,
    height,
    [
      strokeLayer('grid'),
      { layer: [lineLayer('heat', x, y(panels.heat, 'Average dissipation of each transistor, W'))] },
      { layer: [lineLayer('efficiency', x, y(panels.efficiency, 'Efficiency, %'))] },
    ],
    {
      grid: panelRules(ticks, [panels.heat, panels.efficiency]),
      heat: curveRows([heat], panels.heat),
      efficiency: curveRows([efficiency], panels.efficiency),
    },
  );
  return { ...spec, resolve: { scale: { y: 'independent' } } };
}

function textOf(heat: Line, efficiency: Line, notes: readonly string[]): ChartText {
  const { x, y } = joined(heat.runs);
  const [, most] = extent(y) ?? [0, 0];
  const at = x[y.indexOf(most)] ?? 0;
  const where = at === 0 ? 'without a signal' : `at ${withPrefix(at, 'W')} of output`;
  const shares = joined(efficiency.runs);
  const best = extent(shares.y)?.[1];
  const efficient = best === undefined ? '' : `; efficiency reaches ${percent(best / 100)}`;
  const range = `Average dissipation of each transistor in watts and efficiency in per cent, against output power from 0 to ${withPrefix(extent(x)?.[1] ?? 0, 'W', 3)}.`;
  return {
    title: `A transistor dissipates most, ${withPrefix(most, 'W')}, ${where}${efficient}`,
    description: [range, ...notes].join(' '),
  };
}

function tableOf(
  { powerW, deviceW, source }: DissipationAgainstPowerData,
  share: Readings,
  notes: readonly string[],
): ChartTable {
  const watts = (value: number) => fixed(value, 2);
  return columnTable(
    [
      { title: 'Output power', unit: 'W', values: powerW, print: watts },
      { title: 'Dissipation of each transistor', unit: 'W', values: deviceW, print: watts },
      { title: 'Efficiency', unit: '%', values: share, print: (value) => fixed(value, 1) },
    ],
    notes,
    source,
  );
}
