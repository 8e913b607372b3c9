/**
 * The size that a Student variable with a whole number of degrees of freedom exceeds with a small probability, both
 * sides together; infinite without a degree of freedom.
 * @source M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4, from memory; checked
 * against scipy.
 */
export function studentExceeded(probability: number, freedom: number): number {
  if (!(freedom >= 1)) return Number.POSITIVE_INFINITY;
  let [low, high] = [0, Math.PI / 2];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (1 - within(middle, freedom) > probability) low = middle;
    else high = middle;
  }
  return Math.sqrt(freedom) * Math.tan((low + high) / 2);
}

/** Probability that the variable stays within √ν·tan θ in size. */
function within(angle: number, freedom: number): number {
  const [sine, square] = [Math.sin(angle), Math.cos(angle) ** 2];
  const odd = freedom % 2 === 1;
  let term = odd ? Math.cos(angle) : 1;
  let sum = freedom === 1 ? 0 : term;
  for (let order = odd ? 3 : 2; order <= freedom - 2; order += 2) {
    term *= (square * (order - 1)) / order;
    sum += term;
  }
  return odd ? (2 / Math.PI) * (angle + sine * sum) : sine * sum;
}
