import { combinedUncertainty } from '../../signal/index.ts';
import type { Figure } from '../types.ts';
import type { InstrumentError } from './instrument-errors.ts';

type Bounded = Pick<Figure, 'low' | 'high'> & { value: number };

const deviateOf = (freedom: number) => combinedUncertainty([{ standard: 1, freedom }]).half95;

/**
 * 95 % interval from the noise's interval and the instrument's error, each side by itself: root sum of squares with the
 * effective degrees of freedom, but never more than the noise's own half and all that the instrument can be off by. A
 * figure without an interval has that of the instrument alone.
 * @source JCGM 100:2008, 5.1.2 and G.4.1.
 */
export function widened(
  { value, low = value, high = value }: Bounded,
  error: InstrumentError,
  freedom: number,
): { low: number; high: number } {
  const [from, to] = [Math.max(value, low), Math.min(value, high)];
  return {
    low: from - half(from - low, error, freedom),
    high: to + half(high - to, error, freedom),
  };
}

function half(ofNoise: number, { standard, limit }: InstrumentError, freedom: number): number {
  const noise = { standard: ofNoise / deviateOf(freedom), freedom };
  const stated = { standard, freedom: Number.POSITIVE_INFINITY };
  return Math.min(combinedUncertainty([noise, stated]).half95, ofNoise + limit);
}

/**
 * Standard uncertainty that noise alone gives a figure with this interval; null for one without, and where the interval
 * begins at zero, as it then is not that of a value with so much noise about it.
 */
export function noiseDeviation({ low, high }: Pick<Figure, 'low' | 'high'>, freedom: number): number | null {
  return low === undefined || high === undefined || low === 0 ? null : (high - low) / 2 / deviateOf(freedom);
}
