import type { OverallDensity } from '../noise/residual-density.ts';

/** The levels that a record's samples take. */
export interface Levels {
  /** How many different ones there are among the samples looked at. */
  count: number;
  /** The step between them; null for a record that shows none. */
  step: number | null;
}

/** Samples looked at: many enough to meet neighbouring codes near a sine's peaks. */
const mostSamples = 4096;
/** Fewer levels say nothing about a step: a pure sine sampled six times a cycle has four, evenly apart. */
export const fewestLevels = 5;
/** Levels closer than this share of the range are one level, written with rounding. */
const sameLevel = 1e-9;
/** How far from a whole number of steps two neighbouring levels may lie. */
const wholeStep = 0.05;
/** Positions this part of a record apart, wrapped round, fall evenly and never in step with a period. */
const goldenPart = (Math.sqrt(5) - 1) / 2;

/**
 * The levels of a record and the step between them: the smallest distance between neighbouring levels, provided that
 * every other distance is a whole number of it.
 */
export function levelsOf(values: Float64Array): Levels {
  const gaps = gapsBetweenLevels(values);
  const count = gaps.length + 1;
  if (count < fewestLevels) return { count, step: null };
  const smallest = gaps.reduce((least, gap) => Math.min(least, gap), Number.POSITIVE_INFINITY);
  const whole = gaps.every((gap) => Math.abs(gap / smallest - Math.round(gap / smallest)) < wholeStep);
  return { count, step: whole ? smallest : null };
}

function gapsBetweenLevels(values: Float64Array): number[] {
  const sorted = someOf(values).sort();
  const range = (sorted.at(-1) ?? 0) - (sorted[0] ?? 0);
  const gaps: number[] = [];
  for (let i = 1; i < sorted.length; i++) {
    const gap = (sorted[i] ?? 0) - (sorted[i - 1] ?? 0);
    if (gap > sameLevel * range) gaps.push(gap);
  }
  return gaps;
}

function someOf(values: Float64Array): Float64Array {
  if (values.length <= mostSamples) return values.slice();
  const some = new Float64Array(mostSamples);
  for (let i = 0; i < mostSamples; i++) {
    some[i] = values[Math.floor(values.length * ((i * goldenPart) % 1))] ?? 0;
  }
  return some;
}

/** What rounding to levels does to a record. */
export interface Rounding {
  step: number;
  /** Peak amplitude of the sine. */
  amplitude: number;
  cycles: number;
  rows: number;
  /** Density of the residual between the harmonics. */
  density: OverallDensity;
}

/**
 * Variance, for each of the two components of a harmonic, of what rounding to levels adds to it beyond the noise seen
 * between the harmonics.
 *
 * The rounding error of a sine is a sum of its harmonics. Sampled at instants that do not repeat they spread over all
 * lines and are met as noise; what is missing there of the error's variance q²/12 has fallen on the harmonics' own
 * lines, one for each cycle of the record. And however finely a cycle is sampled, the low orders keep their own share:
 * the error is the sawtooth Σ (q/πm)·sin(2πm·x/q) up to signs, whose m-th term has harmonics
 * (2q/πm)·J_n(2πmA/q)·(cos or sin of the constant's place between levels), of mean square q³/(π⁴m³A) over that place and
 * the phase of J_n; each component has half of it, and noise of standard deviation σ ahead of the rounding weakens it by
 * exp(−(2πmσ/q)²).
 *
 * @source Jacobi-Anger expansion: NIST Digital Library of Mathematical Functions, eq. 10.12.2; asymptotic form of J_n:
 * eq. 10.17.3 there; noise ahead of rounding: B. Widrow and I. Kollár, Quantization Noise (2008), from memory.
 */
export function roundingVariance(rounding: Rounding): number {
  const { step, cycles, rows, density } = rounding;
  const missing = Math.max(0, (step * step) / 12 - density.mean);
  return (2 * cycles * missing) / rows + lowOrderVariance(rounding);
}

function lowOrderVariance({ step, amplitude, density }: Rounding): number {
  const noiseSquare = Math.max(0, density.typical - (step * step) / 12);
  const blur = (2 * Math.PI) ** 2 * (noiseSquare / (step * step));
  let sum = 0;
  for (let m = 1; m <= 8; m++) sum += Math.exp(-blur * m * m) / m ** 3;
  return (step ** 3 / (2 * Math.PI ** 4 * amplitude)) * sum;
}
