import type { Harmonic } from './types.ts';

/** The highest order of harmonic that is computed. */
const highestOrder = 7;

/**
 * Amplitudes of cos(nθ), n = 0 to 7, of a waveform that is symmetric about its crest, from samples of half
 * a period: evenly spaced in phase, first at the crest (θ = 0), last at the trough (θ = π). Element 0 is the
 * mean. Exact for a polynomial of the cosine whose degree is below the number of steps.
 * @source Fourier series; trapezoid rule over a half period
 */
export function cosineAmplitudes(half: readonly number[]): number[] {
  const steps = half.length - 1;
  return Array.from({ length: highestOrder + 1 }, (_, order) => {
    const sum = half.reduce((total, value, k) => {
      const weight = k === 0 || k === steps ? 0.5 : 1;
      return total + weight * value * Math.cos((Math.PI * order * k) / steps);
    }, 0);
    return (sum * (order === 0 ? 1 : 2)) / steps;
  });
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
