import type { Harmonic } from '../types.ts';

/** The highest order of harmonic that is computed. */
const highestOrder = 7;

/**
 * Amplitudes of cos(nθ), n = 0 to 7, of a waveform that is symmetric about its crest, from samples of half
 * a period: evenly spaced in phase, first at the crest (θ = 0), last at the trough (θ = π). Element 0 is the
 * mean. Exact for a polynomial of the cosine whose degree is below the number of steps.
 * @source Fourier series; trapezoid rule over a half period
 */
export function cosineAmplitudes(half: ArrayLike<number>): number[] {
  const steps = half.length - 1;
  return weightsOf(steps).map((weights) => {
    let sum = 0;
    for (let k = 0; k <= steps; k++) sum += (half[k] ?? 0) * (weights[k] ?? 0);
    return sum;
  });
}

const tables = new Map<number, Float64Array[]>();

/** By order: what each of the samples counts in its amplitude. */
function weightsOf(steps: number): Float64Array[] {
  const known = tables.get(steps);
  if (known) return known;
  const table = Array.from({ length: highestOrder + 1 }, (_, order) =>
    Float64Array.from({ length: steps + 1 }, (_, k) => {
      const ofStep = (k === 0 || k === steps ? 0.5 : 1) * (order === 0 ? 1 : 2);
      return (ofStep * Math.cos((Math.PI * order * k) / steps)) / steps;
    }),
  );
  tables.set(steps, table);
  return table;
}

/** Below this share of the mean a fundamental is the rounding of the solution. */
const leastFundamental = 1e-9;

/**
 * Amplitudes from the second order on over the fundamental, with their sign at the crest; null without a
 * fundamental.
 */
export function harmonicRatios(amplitudes: readonly number[]): Harmonic[] | null {
  const [mean = 0, fundamental = 0] = amplitudes;
  if (!(Math.abs(fundamental) > leastFundamental * Math.abs(mean))) return null;
  return amplitudes.slice(2).map((amplitude, index) => {
    const ratio = amplitude / fundamental;
    return { order: index + 2, ratio: Math.abs(ratio), sign: ratio < 0 ? -1 : 1 };
  });
}

/** Total harmonic distortion: root sum square of ratios to the fundamental. */
export function totalDistortion(ratios: readonly number[]): number {
  return Math.hypot(...ratios);
}

/** Ratio of one order; 0 where it is not among the harmonics. */
export function ratioOf(harmonics: readonly Harmonic[], order: number): number {
  return harmonics.find((harmonic) => harmonic.order === order)?.ratio ?? 0;
}
