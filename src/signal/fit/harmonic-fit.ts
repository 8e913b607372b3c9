import { sumOf } from '../statistics/statistics.ts';
import { type Amplitudes, linearStep } from './normal-equations.ts';
import { projectWithMoments } from './projection.ts';

/** Constant and harmonics fitted to a record; times m count from the record's middle. */
export interface HarmonicFit extends Amplitudes {
  /** Angle of the fundamental in radians per sample. */
  angle: number;
  /** Passes over the data that moved the angle. */
  iterations: number;
}

export interface HarmonicFitOptions {
  /** Where the angle starts, radians per sample; within a fraction of one cycle per record of the truth. */
  angle: number;
  /** Orders 1 … orders are fitted. */
  orders: number;
  /** Most passes over the data (default 12). */
  iterations?: number;
}

/** Change of phase over the record, in radians at the highest order, whose square no figure can show. */
const settled = 1e-5;
/** A step of the angle beyond one cycle over the record has lost the line it started from. */
const lost = 2 * Math.PI;

/** Fits constant and harmonics at a known angle by linear least squares; null where the lines run into one another. */
export function fitAtAngle(values: Float64Array, { angle, orders }: HarmonicFitOptions): HarmonicFit | null {
  if (!areApart(values.length, angle, orders)) return null;
  return { ...stepAt(values, sumOf(values), angle, orders).amplitudes, angle, iterations: 0 };
}

/**
 * Fits constant, harmonics 1 … orders and their common angle by least squares: Gauss-Newton steps until the angle
 * rests. Null where the steps lead away from the line they started at, or to where lines run into one another.
 */
export function fitHarmonics(values: Float64Array, options: HarmonicFitOptions): HarmonicFit | null {
  const { orders, iterations = 12 } = options;
  const sum = sumOf(values);
  let angle = options.angle;
  for (let pass = 1; pass <= iterations; pass++) {
    if (!areApart(values.length, angle, orders)) return null;
    const { moved, angleStep } = stepAt(values, sum, angle, orders);
    angle += angleStep;
    const phaseStep = Math.abs(angleStep) * values.length;
    if (!(phaseStep <= lost)) return null;
    if (phaseStep * orders < settled || pass === iterations) return { ...moved, angle, iterations: pass };
  }
  return null;
}

/**
 * True where constant, lines and half the sampling rate keep far enough apart for the normal equations: a single line
 * 0.4 cycles per record from either end, several lines a whole cycle from each other.
 */
function areApart(length: number, angle: number, orders: number): boolean {
  const cycles = (angle * length) / (2 * Math.PI);
  return cycles >= (orders === 1 ? 0.4 : 1) && orders * cycles <= length / 2 - 0.4;
}

function stepAt(values: Float64Array, sum: number, angle: number, orders: number) {
  const angles = Array.from({ length: orders }, (_, i) => (i + 1) * angle);
  return linearStep(values.length, angle, sum, projectWithMoments(values, angles));
}
