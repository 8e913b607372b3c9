import { repeatStatistics } from '../signal/index.ts';

/** How one figure spreads over the units of a batch, in its own unit. */
export interface BatchSpread {
  count: number;
  mean: number;
  /** Experimental standard deviation, count − 1 in its denominator; null for a single unit. */
  standardDeviation: number | null;
  lowest: number;
  highest: number;
}

/**
 * Mean and spread over the units that a figure was read on; null for none.
 * @source JCGM 100:2008, 4.2.1 and 4.2.2.
 */
export function batchSpread(values: readonly number[]): BatchSpread | null {
  const statistics = repeatStatistics(Float64Array.from(values));
  if (!statistics) return null;
  const { count, mean, standardDeviation } = statistics;
  return { count, mean, standardDeviation, lowest: Math.min(...values), highest: Math.max(...values) };
}
