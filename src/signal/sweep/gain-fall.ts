import { medianOf } from '../statistics/median.ts';
import { powerBlend } from './interpolate.ts';

/** Decibels by which the gain has fallen where its fall is stated. */
const gainFallDb = 0.5;

/** Output power at one drive. */
export interface DrivenPower {
  inputV: number;
  powerW: number;
}

/** Where the gain has fallen for good, or why there is no such place. */
export interface GainFall {
  dropDb: number;
  powerW: number | null;
  absence: 'no input' | 'no small signal' | 'stays above' | null;
}

/** The gain of a small signal is read between these shares of the largest power. */
const [smallest, largest] = [0.001, 0.1];

/**
 * The output power at which the gain has fallen, for good, by `dropDb` below its median between a thousandth and a
 * tenth of the largest power. Between two readings the fall runs straight over the logarithm of power.
 */
export function gainFall(readings: readonly DrivenPower[] | null, dropDb = gainFallDb): GainFall {
  if (readings === null) return { dropDb, powerW: null, absence: 'no input' };
  const most = readings.reduce((found, { powerW }) => Math.max(found, powerW), 0);
  const gains = readings.map(({ inputV, powerW }) => ({
    powerW,
    db: 10 * Math.log10(powerW) - 20 * Math.log10(inputV),
  }));
  const small = gains.filter(({ powerW }) => powerW >= smallest * most && powerW <= largest * most);
  if (small.length < 3) return { dropDb, powerW: null, absence: 'no small signal' };
  const limit = medianOf(Float64Array.from(small, ({ db }) => db)) - dropDb;
  let first = gains.length;
  while ((gains[first - 1]?.db ?? limit) < limit) first--;
  const [above, below] = [gains[first - 1], gains[first]];
  if (!above || !below) return { dropDb, powerW: null, absence: 'stays above' };
  const share = (above.db - limit) / (above.db - below.db);
  return { dropDb, powerW: powerBlend(above.powerW, below.powerW, share), absence: null };
}
