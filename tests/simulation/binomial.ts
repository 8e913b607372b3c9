/** Counts out of `trials` that events of probability `p` stay within; each end is passed by chance once in 2000. */
export interface CountRange {
  least: number;
  most: number;
}

const tail = 0.0005;

/**
 * The range of 99.9 % of a binomial count, from its exact distribution.
 * @source P(k + 1)/P(k) = (n − k)·p/((k + 1)·(1 − p)).
 */
export function binomialRange(trials: number, p: number): CountRange {
  if (p === 1) return { least: trials, most: trials };
  let logarithm = trials * Math.log1p(-p);
  let upTo = Math.exp(logarithm);
  let count = 0;
  let least = 0;
  while (upTo < 1 - tail && count < trials) {
    logarithm += Math.log(((trials - count) * p) / ((count + 1) * (1 - p)));
    upTo += Math.exp(logarithm);
    count++;
    if (upTo < tail) least = count + 1;
  }
  return { least, most: count };
}
