const normal = 1.959963984540054;

/**
 * The value that a Student variable stays below in size with probability 0.95; infinite without a degree of freedom.
 * Any number of degrees, as effective ones are no whole number: within 0.2 % from three on, exact for one and two.
 * @source M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 26.7.5, from memory; checked against
 * table G.2 of JCGM 100:2008.
 */
export function studentTwoSided95(freedom: number): number {
  if (!(freedom >= 1)) return Number.POSITIVE_INFINITY;
  if (freedom < 2) return 12.706204736432095;
  if (freedom < 3) return 4.302652729911275;
  const z = normal;
  const square = z * z;
  const terms = [
    (square + 1) / 4,
    (5 * square ** 2 + 16 * square + 3) / 96,
    (3 * square ** 3 + 19 * square ** 2 + 17 * square - 15) / 384,
    (79 * square ** 4 + 776 * square ** 3 + 1482 * square ** 2 - 1920 * square - 945) / 92_160,
  ];
  return z + terms.reduce((sum, term, i) => sum + (z * term) / freedom ** (i + 1), 0);
}

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
