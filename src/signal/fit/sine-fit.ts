import { wrapDegrees } from '../record/wrap-degrees.ts';
import { squaresOf } from '../statistics/statistics.ts';
import { fitAtAngle, fitHarmonics, type HarmonicFit } from './harmonic-fit.ts';
import { residual } from './residual.ts';

/** A sine fitted to a record: A·cos(2πft) + B·sin(2πft) + C with t = 0 at the first sample. */
export interface SineFit {
  frequencyHz: number;
  /** A and B, the cosine and sine components. */
  cosine: number;
  sine: number;
  /** C. */
  constant: number;
  /** √(A² + B²), peak. */
  amplitude: number;
  /** Phase of a cosine at the first sample, degrees, (−180, 180]. */
  phaseDeg: number;
  /** rms of what the fit leaves, over all N samples. */
  rmsResidual: number;
  /** Steps that the frequency took; 0 where it was given. */
  iterations: number;
}

export interface SineFit3Options {
  rateHz: number;
  frequencyHz: number;
}

export interface SineFit4Options {
  rateHz: number;
  /** Where the frequency starts: within a fraction of one cycle per record of the truth. */
  startHz: number;
  /** Most steps (default 12). */
  iterations?: number;
}

/**
 * Three-parameter sine fit: linear least squares at a known frequency. Null for fewer than three samples, and within
 * 0.4 cycles per record of zero or of half the rate.
 * @source IEEE Std 1057, three-parameter (known frequency) algorithm, from memory.
 */
export function sineFit3(values: Float64Array, { rateHz, frequencyHz }: SineFit3Options): SineFit | null {
  if (values.length < 3) return null;
  const fit = fitAtAngle(values, { angle: (2 * Math.PI * frequencyHz) / rateHz, orders: 1 });
  return fit && described(values, fit, rateHz);
}

/**
 * Four-parameter sine fit: amplitude, phase, constant and frequency. Null for fewer than four samples, and where the
 * steps lead away from the line they started at.
 * @source IEEE Std 1057, four-parameter algorithm, from memory.
 */
export function sineFit4(
  values: Float64Array,
  { rateHz, startHz, iterations = 12 }: SineFit4Options,
): SineFit | null {
  if (values.length < 4) return null;
  const fit = fitHarmonics(values, { angle: (2 * Math.PI * startHz) / rateHz, orders: 1, iterations });
  return fit && described(values, fit, rateHz);
}

/** The fit with its time counted from the first sample instead of the middle. */
function described(values: Float64Array, fit: HarmonicFit, rateHz: number): SineFit {
  const [a = 0] = fit.cosine;
  const [b = 0] = fit.sine;
  const amplitude = Math.hypot(a, b);
  const phase = Math.atan2(-b, a) - (fit.angle * (values.length - 1)) / 2;
  return {
    frequencyHz: (fit.angle * rateHz) / (2 * Math.PI),
    cosine: amplitude * Math.cos(phase),
    sine: -amplitude * Math.sin(phase),
    constant: fit.constant,
    amplitude,
    phaseDeg: wrapDegrees((phase * 180) / Math.PI),
    rmsResidual: Math.sqrt(squaresOf(residual(values, fit)) / values.length),
    iterations: fit.iterations,
  };
}
