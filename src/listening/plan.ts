import { probabilityOfAtLeast, probabilityOfAtMost } from './binomial.ts';

/** What a listener is asked: which of two is playing, or which of two is preferred. */
export type Task = 'discrimination' | 'preference';

/** The probability of a wrong claim that results are judged by. */
export const errorLevel = 0.05;

/** Share of successes where nothing is heard or preferred. */
const byChance = 0.5;

/** Largest number of trials that a plan is looked for up to. */
export const mostTrials = 2000;

/**
 * Probability that chance alone does as well: one-sided for discrimination, as only right answers speak for hearing;
 * two-sided for preference, where either of the two may be preferred.
 * @source exact binomial test; for the listening test H. Burstein, J. Audio Eng. Soc. 36:879 (1988), from memory.
 */
export function chanceOfResult(task: Task, successes: number, trials: number): number {
  const most = task === 'preference' ? Math.max(successes, trials - successes) : successes;
  const oneSided = probabilityOfAtLeast(most, { trials, chance: byChance });
  return task === 'preference' ? Math.min(1, 2 * oneSided) : oneSided;
}

/** The fewest successes that chance alone reaches in no more than a stated share of sessions; null where none do. */
export function enoughSuccesses(task: Task, trials: number, level = errorLevel): number | null {
  return firstEnough(task, { trials, successes: 0 }, level);
}

/** Looks from a number of successes upwards, which may not be beyond the answer. */
function firstEnough(task: Task, { trials, successes }: Plan, level: number): number | null {
  const ofOneTail = task === 'preference' ? level / 2 : level;
  for (let count = successes; count <= trials; count++) {
    if (probabilityOfAtLeast(count, { trials, chance: byChance }) <= ofOneTail) return count;
  }
  return null;
}

/** A share of successes worth finding, and the probability with which it is to be found. */
export interface Effect {
  share: number;
  power: number;
}

/** A number of trials, and the successes that are enough in it. */
export interface Plan {
  trials: number;
  successes: number;
}

/** Probability that a plan shows a share of successes. */
function powerOfPlan(task: Task, { trials, successes }: Plan, share: number): number {
  const above = probabilityOfAtLeast(successes, { trials, chance: share });
  if (task === 'discrimination') return above;
  return above + probabilityOfAtMost(trials - successes, { trials, chance: share });
}

/** Probability that so many trials show a share of successes; 0 where they can show none. */
export function powerOf(task: Task, trials: number, share: number, level = errorLevel): number {
  const successes = enoughSuccesses(task, trials, level);
  return successes === null ? 0 : powerOfPlan(task, { trials, successes }, share);
}

/**
 * The smallest number of trials that finds an effect with its power; null beyond 2000. A larger number may fall short
 * again by a little, as successes are whole.
 * @source errors of both kinds in listening tests: L. Leventhal, J. Audio Eng. Soc. 34:437 (1986), quoted second-hand.
 */
export function plannedTrials(task: Task, { share, power }: Effect, level = errorLevel): Plan | null {
  let successes = 0;
  for (let trials = 1; trials <= mostTrials; trials++) {
    const enough = firstEnough(task, { trials, successes }, level);
    if (enough === null) continue;
    successes = enough;
    if (powerOfPlan(task, { trials, successes }, share) >= power) return { trials, successes };
  }
  return null;
}
