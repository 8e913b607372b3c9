import { probabilityOfAtLeast, probabilityOfAtMost } from './binomial.ts';

/** Bounds of a 95 % interval for a share; both between 0 and 1. */
export interface ShareInterval {
  low: number;
  high: number;
}

/** How many trials succeeded; there is at least one trial. */
export interface Count {
  successes: number;
  trials: number;
}

/** Quantile of the normal distribution at 97.5 %. */
const z = 1.959963984540054;

/**
 * The shares that the count is not unlikely for, by the normal approximation under each share itself.
 * @source E. B. Wilson, J. Amer. Statist. Assoc. 22:209 (1927), from memory; R. G. Newcombe, Statist. Med. 17:857
 * (1998), method 3.
 */
export function wilsonInterval({ successes, trials }: Count): ShareInterval {
  const share = successes / trials;
  const middle = share + z ** 2 / (2 * trials);
  const half = z * Math.sqrt((share * (1 - share)) / trials + (z / (2 * trials)) ** 2);
  const scale = 1 + z ** 2 / trials;
  return {
    low: successes === 0 ? 0 : (middle - half) / scale,
    high: successes === trials ? 1 : (middle + half) / scale,
  };
}

/**
 * The shares under which neither so many successes nor so few have a probability below 2.5 %: it holds the truth in
 * 95 % of sessions or more.
 * @source C. J. Clopper and E. S. Pearson, Biometrika 26:404 (1934), from memory; bounds by bisection of the exact tails.
 */
export function clopperPearsonInterval({ successes, trials }: Count): ShareInterval {
  const low = shareWhere((chance) => probabilityOfAtLeast(successes, { trials, chance }) > 0.025);
  const high = shareWhere((chance) => probabilityOfAtMost(successes, { trials, chance }) < 0.025);
  return { low: successes === 0 ? 0 : low, high: successes === trials ? 1 : high };
}

/** The share from which on something holds. */
function shareWhere(holds: (share: number) => boolean): number {
  let [low, high] = [0, 1];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
