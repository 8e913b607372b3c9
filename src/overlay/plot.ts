import { levelAspects, proportion } from '../charts/aspect.ts';
import { logAxis } from '../charts/curves.ts';
import { decadesOverFrequency, percentNumbers } from '../charts/distortion.ts';
import type { ExploredLine } from '../charts/explored.ts';
import { type Frame, fitted, frameFor } from '../charts/frame.ts';
import type { Panel } from '../charts/layers.ts';
import { percentOverPower } from '../charts/power.ts';
import { extent, type Run } from '../charts/readings.ts';
import { type LineStyle, lineStyle } from '../charts/theme.ts';
import { roundDomain } from '../charts/ticks.ts';
import type { ChartSize } from '../charts/types.ts';
import { isDecibel, runsOf } from './levels.ts';
import type { Trace } from './types.ts';
import type { View } from './views.ts';

/** A line as it is drawn, with its interval and its noise floor. */
export interface PlottedLine extends ExploredLine {
  floor?: readonly Run[];
}

/** Axes and what lies on them. */
export interface Plot {
  frame: Frame;
  panel: Panel;
  lines: readonly PlottedLine[];
  /** Whether lines have their names at their ends, for which the frame must have room. */
  isNamed: boolean;
}

const leastSpanDb = 4;
const underFloorDb = 10;

/** Lays out traces of one unit; null where none has two neighbouring readings, as a line needs. */
export function plotOf(traces: readonly Trace[], view: View, size: ChartSize): Plot | null {
  const lines = traces.map((trace, i) => plotted(trace, i, view));
  const unit = traces[0]?.unit ?? '';
  if (!lines.some(({ runs }) => runs.some(({ x }) => x.length > 1))) return null;
  const names = lines.map(({ name }) => name);
  const { frame, plot: panel } = fitted(
    frameFor(size, names),
    ({ width }) => panelOf(lines, unit, view.along, { width, size }),
    isDecibel(unit) ? () => [] : percentNumbers,
  );
  return { frame, panel, lines, isNamed: true };
}

function plotted(trace: Trace, index: number, view: View): PlottedLine {
  const style = lineStyle(index);
  const { x, unit, low, high, floor } = trace;
  const runs = (y: number[]) => runsOf({ x, y, unit });
  return {
    ...{ name: trace.title, runs: runsOf(trace) },
    style: view.id === 'spectrum' ? spectrumStyle(style) : style,
    ...(floor ? { floor: runs(floor) } : {}),
    ...(low && high ? { edges: { low: runs(low), high: runs(high) } } : {}),
  };
}

/** Spectra are told apart by colour and name: a dash would look like lines that are not there. */
export const spectrumStyle = (style: LineStyle): LineStyle => ({ ...style, dash: [], weight: 0.9 });

interface Room {
  width: number;
  size: ChartSize;
}

function panelOf(
  lines: readonly PlottedLine[],
  unit: string,
  along: View['along'],
  { width, size }: Room,
): Panel {
  if (isDecibel(unit)) return levelPanel(lines, along, { width, size });
  const upper = lines.flatMap(({ edges }) => (edges ? [{ runs: edges.high }] : []));
  const layOut = along === 'power' ? percentOverPower : decadesOverFrequency;
  return layOut([...lines, ...upper], width, size);
}

function levelPanel(lines: readonly PlottedLine[], along: View['along'], { width, size }: Room): Panel {
  const x = logAxis(lines, width);
  const [low, high] = levelDomain(lines);
  const height = size === 'wide' ? 290 : 240;
  if (along === 'power') return { x, y: { kind: 'linear', domain: [low, high], length: height }, top: 0 };
  const decadeLength = width / Math.log10(x.domain[1] / x.domain[0]);
  const { unitLength, span } = proportion({ aspects: levelAspects, span: high - low, decadeLength, height });
  return { x, y: { kind: 'linear', domain: [high - span, high], length: span * unitLength }, top: 0 };
}

/** No two numbers that a computer holds are further apart than this, in decibels; an axis need not reach beyond it. */
const farthestDb = 15_000;

/** All levels; of spectra from below the noise, whose deepest dips say nothing. */
function levelDomain(lines: readonly PlottedLine[]): [number, number] {
  const values = (runs: readonly Run[]) => runs.flatMap(({ y }) => y);
  const levels = lines.flatMap(({ runs }) => values(runs)).map(withinReach);
  const [lowest, highest] = extent(levels) ?? [-3, 0];
  const floors = lines.map(({ floor = [] }) => middle(values(floor)) - underFloorDb).filter(Number.isFinite);
  const low = floors.length > 0 ? Math.max(lowest, Math.min(...floors)) : lowest;
  const missing = Math.max(0, leastSpanDb - (highest - low)) / 2;
  return roundDomain(low - missing, highest + missing, 8);
}

const withinReach = (level: number): number => Math.max(-farthestDb, Math.min(farthestDb, level));

/** The value that half of some values lie below. */
export const middle = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
