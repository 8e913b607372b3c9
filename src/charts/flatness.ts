import { crossings, valueAt } from './crossings.ts';
import type { Run } from './readings.ts';

const onLogFrequency = { logX: true, logY: false };

/** The band around the reference in which a level keeps within a tolerance of 0 dB. */
export interface FlatBand {
  fromHz: number;
  toHz: number;
  /** True where the band ends with the readings and may go on. */
  openBelow: boolean;
  openAbove: boolean;
}

/**
 * The unbroken band around a frequency in which |level| stays within a tolerance; the level runs straight
 * between readings over log frequency. Null when the level at that frequency is outside of the tolerance.
 */
export function flatBand(run: Run, toleranceDb: number, aroundHz: number): FlatBand | null {
  const level = valueAt(run, aroundHz, onLogFrequency);
  const [first, last] = [run.x[0], run.x.at(-1)];
  if (level === null || first === undefined || last === undefined || Math.abs(level) > toleranceDb)
    return null;
  const edges = [toleranceDb, -toleranceDb].flatMap((limit) => crossings(run, limit, onLogFrequency));
  const lower = edges.map(({ x }) => x).filter((x) => x <= aroundHz);
  const upper = edges.map(({ x }) => x).filter((x) => x > aroundHz);
  return {
    fromHz: lower.length > 0 ? Math.max(...lower) : Math.min(first, last),
    toHz: upper.length > 0 ? Math.min(...upper) : Math.max(first, last),
    openBelow: lower.length === 0,
    openAbove: upper.length === 0,
  };
}

/** The frequency nearest to 0 dB in the middle of a run, where no reference frequency is stated. */
export function levelCentre({ x, y }: Run): number {
  let best = 0;
  for (let i = 1; i < x.length; i++) {
    if (Math.abs(y[i] ?? 0) < Math.abs(y[best] ?? 0)) best = i;
  }
  return x[best] ?? 0;
}
