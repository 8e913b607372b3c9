/** Trials of which each succeeds with the same probability, whatever the others did. */
export interface Trials {
  trials: number;
  /** Probability of success of one trial. */
  chance: number;
}

/**
 * Probability of exactly so many successes.
 * @source binomial distribution, Abramowitz and Stegun 26.1.20 (from memory); factors are multiplied in an order that
 * keeps the product near one, so that neither the coefficient overflows nor the powers vanish.
 */
function exactly(successes: number, { trials, chance }: Trials): number {
  const fewer = Math.min(successes, trials - successes);
  const powers = [
    { factor: chance, left: successes },
    { factor: 1 - chance, left: trials - successes },
  ];
  let product = 1;
  const lower = () => {
    const power = powers.find(({ left }) => left > 0);
    if (!power) return false;
    product *= power.factor;
    power.left -= 1;
    return true;
  };
  for (let i = 1; i <= fewer; i++) {
    product *= (trials - fewer + i) / i;
    while (product > 1 && lower());
  }
  while (lower());
  return product;
}

/** Sum of the probabilities from one count of successes to the last, away from the most probable count. */
function tail(from: number, { trials, chance }: Trials): number {
  let term = exactly(from, { trials, chance });
  let sum = term;
  for (let k = from; k < trials && term > 0; k++) {
    term *= ((trials - k) / (k + 1)) * (chance / (1 - chance));
    sum += term;
  }
  return sum;
}

/** Probability of so many successes or more, exact to the rounding of the arithmetic; between 0 and 1. */
export function probabilityOfAtLeast(successes: number, { trials, chance }: Trials): number {
  if (successes <= 0) return 1;
  if (successes > trials || chance <= 0) return 0;
  if (chance >= 1) return 1;
  if (successes > trials * chance) return Math.min(1, tail(successes, { trials, chance }));
  return Math.max(0, 1 - tail(trials - successes + 1, { trials, chance: 1 - chance }));
}

/** Probability of so many successes or fewer. */
export function probabilityOfAtMost(successes: number, { trials, chance }: Trials): number {
  return probabilityOfAtLeast(trials - successes, { trials, chance: 1 - chance });
}
