import { levelAspects, proportion } from '../../charts/aspect.ts';
import type { Axis } from '../../charts/axis.ts';
import type { Drawn } from '../../charts/crossings.ts';
import { decadesOverFrequency, percentDomain, percentNumbers } from '../../charts/distortion.ts';
import type { ExploredAxis, ExploredChart, ExploredLine, ExploredPanel } from '../../charts/explored.ts';
import { type Frame, fitted, frameFor } from '../../charts/frame.ts';
import type { Panel } from '../../charts/layers.ts';
import { extent, type Run } from '../../charts/readings.ts';
import { linearTicks, plainTick, prefixedTick, printedNumbers, roundDomain } from '../../charts/ticks.ts';
import type { ChartSize } from '../../charts/types.ts';
import type { SceneAxes } from '../axis-marks.ts';
import { cutRun } from '../cut.ts';
import { isDecibel } from '../levels.ts';
import type { Plot } from '../plot.ts';
import { isWhole, type Stretch, wholeOf } from './stretch.ts';

/** What of a chart is shown, and for which width. */
export interface Shown {
  lines: ReadonlySet<ExploredLine>;
  stretch: Stretch;
  size: ChartSize;
}

const leastSpanDb = 4;

/**
 * Lays out the panels of a chart on a stretch of their horizontal axis. Vertical axes hold what all lines read there,
 * whether they are shown or not, so that nothing moves when a line is taken away. All of a level or a percentage
 * against frequency has an aspect ratio of IEC 60263; a part of it keeps that height and has none.
 */
export function plotsOf(chart: ExploredChart, { lines, stretch, size }: Shown): Plot[] {
  const named = chart.panels.filter((panel) => panel.lines.length > 1);
  const names = named.flatMap((panel) => panel.lines.map(({ name }) => name));
  const cuts = chart.panels.map((panel) => cutPanel(panel, chart, stretch));
  const { frame, plot: panels } = fitted(
    frameFor(size, names),
    (room) => chart.panels.map((panel, i) => axesOf(panel, cuts[i] ?? panel, { chart, stretch, room, size })),
    (laidOut) => laidOut.flatMap(numbersOf),
  );
  return panels.map((panel, i) => ({
    frame,
    panel,
    isNamed: (chart.panels[i]?.lines.length ?? 0) > 1,
    lines: (cuts[i]?.lines ?? []).filter((_, j) => isShown(chart.panels[i]?.lines[j], lines)),
  }));
}

const isShown = (line: ExploredLine | undefined, lines: ReadonlySet<ExploredLine>): boolean =>
  line !== undefined && lines.has(line);

/** What stands at the axes of a panel. */
export const axesText = ({ x }: ExploredChart, panel: ExploredAxis): SceneAxes => ({
  x: { title: titleOf(x), print: x.unit === 'Hz' || x.unit === 'Ω' ? prefixedTick : plainTick },
  y: titleOf(panel),
});

const titleOf = ({ quantity, unit }: ExploredAxis): string => [quantity, unit].filter(Boolean).join(', ');

/** How the lines of a panel run between their readings. */
export const drawnOn = ({ x }: Pick<ExploredChart, 'x'>, { kind }: Pick<ExploredAxis, 'kind'>): Drawn => ({
  logX: x.kind === 'log',
  logY: kind === 'log',
});

function cutPanel(panel: ExploredPanel, chart: ExploredChart, stretch: Stretch): ExploredPanel {
  if (isWhole(stretch, wholeOf(chart))) return panel;
  const drawn = drawnOn(chart, panel);
  const cut = (runs: readonly Run[]) =>
    runs.map((run) => cutRun(run, stretch, drawn)).filter(({ x }) => x.length > 0);
  const lines = panel.lines.map((line) => ({
    ...line,
    runs: cut(line.runs),
    ...(line.edges ? { edges: { low: cut(line.edges.low), high: cut(line.edges.high) } } : {}),
  }));
  return { ...panel, lines };
}

interface Layout {
  chart: ExploredChart;
  stretch: Stretch;
  room: Pick<Frame, 'width'>;
  size: ChartSize;
}

function axesOf(
  whole: ExploredPanel,
  cut: ExploredPanel,
  { chart, stretch, room: { width }, size }: Layout,
): Panel {
  const all = wholeOf(chart);
  const standing = wholeAxes(whole, chart, { kind: chart.x.kind, domain: all.whole, length: width }, size);
  if (cut === whole) return standing;
  const x: Axis = { ...standing.x, domain: stretch };
  return { x, y: { ...standing.y, domain: domainOf(cut, false) }, top: 0 };
}

function wholeAxes(
  panel: ExploredPanel,
  { x: { unit }, panels }: ExploredChart,
  x: Axis,
  size: ChartSize,
): Panel {
  const domain = domainOf(panel, true);
  const one = size === 'wide' ? 280 : 240;
  const length = panels.length === 1 ? one : Math.round(0.6 * one);
  const hasAspect = unit === 'Hz' && x.kind === 'log' && panels.length === 1;
  if (!hasAspect) return { x, y: { kind: panel.kind, domain, length }, top: 0 };
  if (panel.kind === 'log') return { ...decadesOverFrequency(withUpper(panel), x.length, size), x };
  const decadeLength = x.length / Math.log10(x.domain[1] / x.domain[0]);
  const span = domain[1] - domain[0];
  const fit = proportion({ aspects: levelAspects, span, decadeLength, height: length });
  const y = { kind: panel.kind, domain: [domain[1] - fit.span, domain[1]] as const };
  return { x, y: { ...y, length: fit.span * fit.unitLength }, top: 0 };
}

const withUpper = ({ lines }: ExploredPanel) => [
  ...lines,
  ...lines.flatMap(({ edges }) => (edges ? [{ runs: edges.high }] : [])),
];

/** A linear axis of a whole chart that is no level begins at zero. */
function domainOf(panel: ExploredPanel, isAll: boolean): [number, number] {
  const drawn = withUpper(panel);
  if (panel.kind === 'log') return percentDomain(drawn);
  const [lowest, high] = extent(drawn.flatMap(({ runs }) => runs.flatMap(({ y }) => y))) ?? [0, 1];
  const low = Math.max(lowest, Math.min(panel.from ?? lowest, high));
  if (!isDecibel(panel.unit)) return roundDomain(isAll ? Math.min(0, low) : low, high, 5);
  const missing = Math.max(0, leastSpanDb - (high - low)) / 2;
  return roundDomain(low - missing, high + missing, 8);
}

function numbersOf(panel: Panel): string[] {
  return panel.y.kind === 'log'
    ? percentNumbers(panel)
    : printedNumbers(linearTicks(panel.y, panel.y.length / 38), plainTick);
}
