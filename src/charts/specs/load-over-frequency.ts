import { assemble, type Row } from '../assemble.ts';
import { along, below, within } from '../axis.ts';
import { endLabels } from '../curves.ts';
import { canBeDrawn, decadesOverFrequency } from '../distortion.ts';
import { frequencyAxis } from '../explored.ts';
import { fixed, hertz, percent, significant, withPrefix } from '../format.ts';
import type { Frame } from '../frame.ts';
import { frequencyTicks } from '../frequency.ts';
import { haloLayer, type Panel, strokeLayer, symbolLayer, textLayer, xChannel } from '../layers.ts';
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
  withTwoAxes,
} from '../power-panels.ts';
import { extent, joined } from '../readings.ts';
import { columnTable } from '../table.ts';
import { textWidth } from '../text-width.ts';
import { colour, fontSize } from '../theme.ts';
import { prefixedTick, roundDomain } from '../ticks.ts';
import type {
  ChartResult,
  ChartSize,
  ChartSpec,
  ChartTable,
  ChartText,
  LoadOverFrequencyData,
} from '../types.ts';

/**
 * Output power above, and harmonics and total distortion below, over frequency into a load that is no resistor, with
 * the frequency of most distortion marked. Without two neighbouring readings of power it is absent.
 */
export function loadOverFrequency(data: LoadOverFrequencyData, size: ChartSize = 'wide'): ChartResult {
  const lines = powerLines(data.frequencyHz, data);
  const table = tableOf(data, lines.notes);
  if (!canBeDrawn([lines.power])) return { absent: absentReasons.fewReadings('power over frequency'), table };
  const { frame, plot: panels } = fittedPower(lines, size, (width) => panelsOf(lines, width, size));
  const explored = exploredPower(frequencyAxis, lines);
  return { spec: specOf(data, lines, panels, frame), text: textOf(data, lines), table, ...explored };
}

function panelsOf({ power, distortion }: PowerLines, width: number, size: ChartSize): PowerPanels {
  const lower = decadesOverFrequency(distortion, width, size);
  const [, most] = extent(joined(power.runs).y) ?? [0, 1];
  const length = size === 'wide' ? 150 : 130;
  const y = { kind: 'linear' as const, domain: roundDomain(0, most > 0 ? most : 1, 4), length };
  return { power: { x: lower.x, y, top: 0 }, distortion: { ...lower, top: length + panelGap } };
}

function specOf(
  data: LoadOverFrequencyData,
  lines: PowerLines,
  panels: PowerPanels,
  frame: Frame,
): ChartSpec {
  const { labels, leads } = endLabels(lines.distortion, panels.distortion, frame);
  const worst = worstRows(data, panels);
  const ticks = frequencyTicks(panels.power);
  const across = xChannel('x', panels.power, {
    ...{ ticks, grid: false, title: 'Frequency, Hz', print: prefixedTick },
  });
  const drawn = powerLayers(lines, panels, { frame, ticks, across });
  const spec = assemble(
    frame,
    panels.distortion.top + panels.distortion.y.length,
    [
      strokeLayer('grid'),
      strokeLayer('worst-rule'),
      ...drawn.layers,
      strokeLayer('lead'),
      symbolLayer('worst'),
      haloLayer('worst-left', 'left'),
      textLayer('worst-left', 'left'),
      haloLayer('worst-right', 'right'),
      textLayer('worst-right', 'right'),
      textLayer('label', 'left'),
    ],
    {
      ...drawn.datasets,
      'worst-rule': worst.rules,
      lead: leads,
      worst: worst.points,
      'worst-left': worst.right ? [] : worst.labels,
      'worst-right': worst.right ? worst.labels : [],
      label: labels,
    },
  );
  return withTwoAxes(spec);
}

const noRows = { right: false, rules: [], points: [], labels: [] };

/** A rule through both panels, a point on the line of total distortion, and what it is, on the side with room. */
function worstRows({ worst }: LoadOverFrequencyData, { power, distortion }: PowerPanels) {
  const { x, y, top } = distortion;
  if (!within(x, worst.frequencyHz) || !within(y, 100 * worst.thdRatio)) return noRows;
  const px = along(x, worst.frequencyHz);
  const py = top + below(y, 100 * worst.thdRatio);
  const text = `${percent(worst.thdRatio)} at ${hertz(worst.frequencyHz)}`;
  const right = px + textWidth(text, fontSize) + 10 > x.length;
  const rule = (panel: Panel): Row => ({
    ...{ px, py: panel.top, px2: px, py2: panel.top + panel.y.length },
    ...{ stroke: colour('soft'), dash: [1, 3] },
  });
  return {
    right,
    rules: [power, distortion].map(rule),
    points: [{ px, py, shape: 'circle', fill: colour('paper'), stroke: colour('ink') }],
    labels: [
      { px: px + (right ? -9 : 9), py: Math.max(top + 8, py - 12), text: [text], fill: colour('ink') },
    ],
  };
}

function textOf(data: LoadOverFrequencyData, { power, notes }: PowerLines): ChartText {
  const { worst, into } = data;
  const { x: hz, y: watts } = joined(power.runs);
  const [from, to] = extent(hz) ?? [0, 0];
  const least = watts.reduce((a, b) => Math.min(a, b));
  const at = hz[watts.indexOf(least)] ?? 0;
  const load = `${withPrefix(worst.loadOhm, 'Ω', 3)} at ${fixed(worst.phaseDeg, 0)}°`;
  return {
    title: `Most distortion, ${percent(worst.thdRatio)}, at ${hertz(worst.frequencyHz)}; least power, ${withPrefix(least, 'W')}, at ${hertz(at)}`,
    description: [
      `Output power in watts, and second and third harmonic and total distortion in per cent, at full drive into ${into} over frequency from ${hertz(from)} to ${hertz(to)}.`,
      `At ${hertz(worst.frequencyHz)} the load at the plate is ${load}.`,
      ...notes,
    ].join(' '),
  };
}

function tableOf(data: LoadOverFrequencyData, notes: readonly string[]): ChartTable {
  return columnTable(
    [
      { title: 'Frequency', unit: 'Hz', values: data.frequencyHz, print: (value) => significant(value, 4) },
      {
        title: 'Load at the plate',
        unit: 'Ω',
        values: data.loadOhm,
        print: (value) => significant(value, 3),
      },
      { title: 'Phase', unit: '°', values: data.phaseDeg, print: (value) => fixed(value, 0) },
      ...powerColumns(data),
    ],
    notes,
    data.source,
  );
}
