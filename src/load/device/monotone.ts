/**
 * Slope at a point between two secants, such that a cubic with such slopes never leaves the range of its two
 * values: the three-point estimate, brought to zero at a local extreme and to three times the smaller of the
 * secants elsewhere. At an end, where a secant is NaN, the slope is that of the other.
 * @source F. N. Fritsch and R. E. Carlson, SIAM J. Numer. Anal. 17:238 (1980), the square [0, 3] x [0, 3] within
 * their region of monotonicity
 */
export function limitedSlope(before: number, after: number, widthBefore: number, widthAfter: number): number {
  if (Number.isNaN(before)) return after;
  if (Number.isNaN(after)) return before;
  if (before * after <= 0) return 0;
  const estimate = (before * widthAfter + after * widthBefore) / (widthBefore + widthAfter);
  const most = 3 * Math.min(Math.abs(before), Math.abs(after));
  return Math.abs(estimate) <= most ? estimate : Math.sign(estimate) * most;
}

/**
 * Cubic Hermite interpolation at `t` from 0 to 1 between two values; the rises are slopes times the interval's
 * width.
 */
export function hermite(left: number, right: number, t: number, leftRise: number, rightRise: number): number {
  const u = 1 - t;
  const value = u * u * ((1 + 2 * t) * left + t * leftRise) + t * t * ((1 + 2 * u) * right - u * rightRise);
  // The last digit of a sum may lie outside.
  const [least, most] = left < right ? [left, right] : [right, left];
  return Math.min(most, Math.max(least, value));
}

/** Index of the last of the rising values that is not above `x`, at most the last but one; 0 below the first. */
export function intervalOf(rising: ArrayLike<number>, x: number): number {
  let low = 0;
  let high = rising.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((rising[middle] ?? 0) <= x) low = middle;
    else high = middle;
  }
  return low;
}

/** Interpolation through points of rising `x`, held at both ends. */
export function monotoneCurve(x: Float64Array, y: Float64Array): (at: number) => number {
  const last = x.length - 1;
  const first = x[0] ?? 0;
  const end = x[last] ?? 0;
  const slopes = slopesOf(x, y);
  return (at) => {
    const held = Math.min(end, Math.max(first, at));
    const k = intervalOf(x, held);
    const from = x[k] ?? 0;
    const width = (x[k + 1] ?? 0) - from;
    const rises = { left: width * (slopes[k] ?? 0), right: width * (slopes[k + 1] ?? 0) };
    return hermite(y[k] ?? 0, y[k + 1] ?? 0, (held - from) / width, rises.left, rises.right);
  };
}

function slopesOf(x: Float64Array, y: Float64Array): Float64Array {
  const width = (k: number) => (x[k + 1] ?? Number.NaN) - (x[k] ?? Number.NaN);
  const secant = (k: number) => ((y[k + 1] ?? 0) - (y[k] ?? 0)) / width(k);
  return x.map((_, k) => limitedSlope(secant(k - 1), secant(k), width(k - 1), width(k)));
}
