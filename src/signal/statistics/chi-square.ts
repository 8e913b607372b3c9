/**
 * Probability that a chi-square variable of `freedom` degrees exceeds a value: 1 for 0 and below. To 1e-12 absolute,
 * for fewer than 1000 degrees of freedom.
 * @source M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 6.5.29 and 26.4.19, from memory: the series
 * of the incomplete gamma function; checked against a published table.
 */
export function chiSquareAbove(value: number, freedom: number): number {
  const half = value / 2;
  if (!(half > 0)) return 1;
  // Beyond this the tail of fewer than 1000 degrees is below 1e-12, and the series would leave the range of numbers.
  if (half > 700) return 0;
  const order = freedom / 2;
  let term = Math.exp(order * Math.log(half) - half - logGammaAbove(order));
  let below = 0;
  for (let n = 1; term > 1e-17 || n < half; n++) {
    below += term;
    term *= half / (order + n);
  }
  return Math.max(0, 1 - below);
}

/** Logarithm of Γ(order + 1) for whole and half orders. */
function logGammaAbove(order: number): number {
  const start = Number.isInteger(order) ? 0 : 0.5;
  let logarithm = start === 0 ? 0 : Math.log(Math.sqrt(Math.PI) / 2);
  for (let factor = start + 1; factor <= order; factor++) logarithm += Math.log(factor);
  return logarithm;
}
