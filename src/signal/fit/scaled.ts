import { extremesOf, sumOf } from '../statistics/statistics.ts';

/** Largest samples below this, and above its inverse, keep their sixth powers far inside the range of numbers. */
const ordinary = 1024;

/** A record brought to a size at which every square and product of its samples stays in range. */
export interface ScaledRecord {
  values: Float64Array;
  /** What the samples were divided by: a power of two, so that nothing is lost. */
  scale: number;
}

/** Divides finite samples by the power of two next to the largest of them; those of ordinary size stay as they are. */
export function scaled(samples: Float64Array): ScaledRecord {
  const { lowest, highest } = extremesOf(samples);
  const peak = Math.max(-lowest, highest);
  if (peak > 1 / ordinary && peak < ordinary) return { values: samples, scale: 1 };
  const scale = peak === 0 ? 1 : 2 ** Math.max(-1022, Math.floor(Math.log2(peak)));
  const values = new Float64Array(samples.length);
  for (let n = 0; n < values.length; n++) values[n] = (samples[n] ?? 0) / scale;
  return { values, scale };
}

/** Position of the first sample that is not a finite number, counted from 0; −1 where all are. */
export function firstNotFinite(samples: Float64Array): number {
  // A sum is finite only where every sample is; that of finite samples may still be too large.
  if (Number.isFinite(sumOf(samples))) return -1;
  for (let n = 0; n < samples.length; n++) {
    if (!Number.isFinite(samples[n])) return n;
  }
  return -1;
}
