import {
  densityAround,
  type LocalDensity,
  nearHarmonic,
  type ResidualSpectrum,
  residualSpectrum,
} from '../noise/residual-density.ts';
import { sumOf } from '../statistics/statistics.ts';
import type { FittedRecord } from './fit-record.ts';

/** What is left of a record once a constant and lines are taken away. */
export interface Remainder {
  values: Float64Array;
  spectrum: ResidualSpectrum;
  /** Cycles per record of the lines that were taken away. */
  taken: number[];
  /**
   * Cycles of the fundamental in the record; without one the record's length, so that none of its multiples is near
   * any line.
   */
  fundamental: number;
}

/** A fitted record without its constant and harmonics, or one without a fundamental less its mean. */
export function remainderOf(values: Float64Array, fitted: FittedRecord | null): Remainder {
  if (fitted === null) {
    const mean = sumOf(values) / values.length;
    const rest = values.map((value) => value - mean);
    return { values: rest, spectrum: residualSpectrum(rest), taken: [], fundamental: values.length };
  }
  const { residual, spectrum, cycles, fit } = fitted;
  const taken = fit.cosine.map((_, i) => (i + 1) * cycles);
  return { values: residual, spectrum, taken, fundamental: cycles };
}

/** Density of a remainder about one frequency, read away from the harmonics and from all lines taken away. */
export function densityLeft({ spectrum, taken, fundamental }: Remainder, cycles: number): LocalDensity {
  const reach = Math.min(1, 0.375 * narrowestGap(taken));
  const emptied = (at: number) =>
    nearHarmonic(at, fundamental) || taken.some((line) => Math.abs(at - line) < reach);
  return densityAround(spectrum, cycles, emptied);
}

function narrowestGap(taken: readonly number[]): number {
  const sorted = taken.toSorted((a, b) => a - b);
  return sorted
    .slice(1)
    .reduce((gap, line, i) => Math.min(gap, line - (sorted[i] ?? 0)), Number.POSITIVE_INFINITY);
}
