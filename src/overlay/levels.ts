import { type Drawn, valueAt } from '../charts/crossings.ts';
import { type Run, sortReadings } from '../charts/readings.ts';
import type { Curve } from './types.ts';

/** True for units that are decibels already. */
export const isDecibel = (unit: string): boolean => unit.startsWith('dB');

/** The runs of neighbouring readings of a curve, as they are drawn: over a logarithmic axis. */
export function runsOf({ x, y, unit }: Pick<Curve, 'x' | 'y' | 'unit'>): Run[] {
  return sortReadings(x, y, { x: 'log', y: isDecibel(unit) ? 'linear' : 'log' }).runs;
}

/**
 * The value of a curve at a place, straight between its readings as it is drawn: on logarithmic axes, decibels on a
 * linear one. Null outside of its readings and in their gaps: nothing is extrapolated.
 */
export const readAt = (curve: Pick<Curve, 'x' | 'y' | 'unit'>, place: number): number | null =>
  readRuns(runsOf(curve), place, drawnAs(curve));

/** How a curve is drawn. */
export const drawnAs = ({ unit }: Pick<Curve, 'unit'>): Drawn => ({ logX: true, logY: !isDecibel(unit) });

/** The value of a line at a place, straight between its readings on its axes; null outside of them and in their gaps. */
export function readRuns(runs: readonly Run[], place: number, drawn: Drawn): number | null {
  for (const run of runs) {
    const value = readRun(run, place, drawn);
    if (value !== null) return value;
  }
  return null;
}

/** The same of one run of readings. */
export const readRun = (run: Run, place: number, drawn: Drawn): number | null =>
  run.x.length === 1 ? lone(run, place) : valueAt(run, place, drawn);

const lone = ({ x, y }: Run, place: number): number | null => (x[0] === place ? (y[0] ?? null) : null);

/** Readings as decibels re one unit; null where a reading has no level. */
export function decibelsOf({ y, unit }: Pick<Curve, 'y' | 'unit'>): (number | null)[] {
  if (isDecibel(unit)) return y;
  return y.map((value) => (value !== null && value > 0 ? 20 * Math.log10(value) : null));
}
