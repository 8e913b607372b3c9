/** Mean, spread and serial correlation of repeated readings. */
export interface RepeatStatistics {
  count: number;
  mean: number;
  /** With count − 1 in the denominator; null for a single reading. */
  standardDeviation: number | null;
  /** Correlation of neighbours; null where the readings do not differ. */
  lag1Autocorrelation: number | null;
}

/**
 * Statistics of repeats, by two passes: the mean first, then the deviations from it. Null for no readings.
 * @source definitions of the NIST Statistical Reference Datasets, univariate summary statistics,
 * itl.nist.gov/div898/strd/univ/certmethdef/lew.html; the second-pass correction of the mean and of the sum of
 * squares: T. F. Chan, G. H. Golub, R. J. LeVeque, The American Statistician 37:242 (1983), from memory.
 */
export function repeatStatistics(readings: Float64Array): RepeatStatistics | null {
  const count = readings.length;
  if (count === 0) return null;
  const rough = sumOf(readings) / count;
  const deviations = readings.map((value) => value - rough);
  const rest = sumOf(deviations) / count;
  const squares = squaresOf(deviations) - count * rest * rest;
  return {
    count,
    mean: rough + rest,
    standardDeviation: count > 1 ? Math.sqrt(Math.max(0, squares) / (count - 1)) : null,
    lag1Autocorrelation: squares > 0 ? neighbourProducts(deviations, rest) / squares : null,
  };
}

function neighbourProducts(deviations: Float64Array, rest: number): number {
  let sum = 0;
  for (let i = 1; i < deviations.length; i++) {
    sum += ((deviations[i] ?? 0) - rest) * ((deviations[i - 1] ?? 0) - rest);
  }
  return sum;
}

/** Sum of the values. */
export function sumOf(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i] ?? 0;
  return sum;
}

/** Sum of the squares of the values' distances from a centre. */
export function squaresOf(values: Float64Array, centre = 0): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) {
    const distance = (values[i] ?? 0) - centre;
    sum += distance * distance;
  }
  return sum;
}

/** True where all values are the same. */
export function isConstant(values: Float64Array): boolean {
  for (let i = 1; i < values.length; i++) {
    if (values[i] !== values[0]) return false;
  }
  return true;
}

/** Median of the values, which are left as they stand; 0 for none. */
export function medianOf(values: Float64Array): number {
  const sorted = values.toSorted();
  const half = sorted.length >> 1;
  const upper = sorted[half] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? upper) + upper) / 2;
}
