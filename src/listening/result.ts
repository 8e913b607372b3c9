import { clopperPearsonInterval, type ShareInterval, wilsonInterval } from './intervals.ts';
import {
  chanceOfResult,
  type Effect,
  enoughSuccesses,
  errorLevel,
  type Plan,
  plannedTrials,
  powerOf,
  type Task,
} from './plan.ts';

/** What a session of trials came to. Successes are right answers, or choices of one of the two. */
export interface SessionCount {
  task: Task;
  isBlind: boolean;
  successes: number;
  trials: number;
  /** The number of trials that was fixed beforehand; null where none was. */
  planned: number | null;
  /** What the session was to find; null where that was not stated. */
  effect: Effect | null;
}

/** Whether the number of trials is the one that was fixed beforehand. */
export type Planning = 'kept' | 'not fixed' | 'stopped early' | 'went on';

/** What trials may be judged by; only blind ones are. */
export interface Judged {
  /** Probability that chance alone does as well. */
  pValue: number;
  /** Intervals of 95 % for the share of successes. */
  wilson: ShareInterval;
  clopperPearson: ShareInterval;
  /** The fewest successes that show something in so many trials; null where none do. */
  enough: number | null;
  /** True where chance alone does as well in no more than 5 % of sessions. */
  isShown: boolean;
  /** What was to be found: the chance of it in so many trials, and the number that it takes; null if not stated. */
  aim: { effect: Effect; power: number; needed: Plan | null } | null;
  /** Where no aim was stated and nothing was shown: the numbers of trials that find larger and larger shares. */
  needed: { share: number; plan: Plan | null }[];
}

/** A session with what its trials can and cannot show. */
export interface SessionResult {
  count: SessionCount;
  planning: Planning;
  /** Null for sighted trials, and where there are none. */
  judged: Judged | null;
}

/** What the trials of a session can and cannot show. */
export function sessionResult(count: SessionCount): SessionResult {
  const judged = count.isBlind && count.trials > 0 ? judgedCount(count) : null;
  return { count, planning: planningOf(count), judged };
}

/** Shares of successes that the number of trials is told for where the session states none. */
const shares: readonly number[] = [0.6, 0.75, 0.9];

function judgedCount({ task, successes, trials, effect }: SessionCount): Judged {
  const enough = enoughSuccesses(task, trials);
  const most = task === 'preference' ? Math.max(successes, trials - successes) : successes;
  const isShown = enough !== null && most >= enough;
  return {
    pValue: chanceOfResult(task, successes, trials),
    wilson: wilsonInterval({ successes, trials }),
    clopperPearson: clopperPearsonInterval({ successes, trials }),
    ...{ enough, isShown },
    aim: effect && {
      effect,
      power: powerOf(task, trials, effect.share),
      needed: plannedTrials(task, effect),
    },
    needed: effect || isShown ? [] : neededFor(task),
  };
}

/** As surely as chance is kept out: with both errors at 5 %. */
const neededFor = (task: Task): Judged['needed'] =>
  shares.map((share) => ({ share, plan: plannedTrials(task, { share, power: 1 - errorLevel }) }));

function planningOf({ planned, trials }: SessionCount): Planning {
  if (planned === null) return 'not fixed';
  return trials === planned ? 'kept' : trials < planned ? 'stopped early' : 'went on';
}
