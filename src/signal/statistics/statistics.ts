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
  const whole = values.length - (values.length % 4);
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  for (let i = 0; i < whole; i += 4) {
    a += values[i] ?? 0;
    b += values[i + 1] ?? 0;
    c += values[i + 2] ?? 0;
    d += values[i + 3] ?? 0;
  }
  for (let i = whole; i < values.length; i++) a += values[i] ?? 0;
  return a + b + (c + d);
}

/** The largest of the values; minus infinity for none. */
export function largestOf(values: Float64Array): number {
  let largest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? largest;
    if (value > largest) largest = value;
  }
  return largest;
}

/** The lowest and the highest of the values; infinite for none. */
export function extremesOf(values: Float64Array): { lowest: number; highest: number } {
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? 0;
    if (value > highest) highest = value;
    if (value < lowest) lowest = value;
  }
  return { lowest, highest };
}

/** Sum of the squares of the values' distances from a centre. */
export function squaresOf(values: Float64Array, centre = 0): number {
  const whole = values.length - (values.length % 2);
  let a = 0;
  let b = 0;
  for (let i = 0; i < whole; i += 2) {
    const first = (values[i] ?? 0) - centre;
    const second = (values[i + 1] ?? 0) - centre;
    a += first * first;
    b += second * second;
  }
  for (let i = whole; i < values.length; i++) a += ((values[i] ?? 0) - centre) ** 2;
  return a + b;
}

/** True where all values are the same. */
export function isConstant(values: Float64Array): boolean {
  for (let i = 1; i < values.length; i++) {
    if (values[i] !== values[0]) return false;
  }
  return true;
}
