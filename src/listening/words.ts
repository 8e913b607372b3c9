import { printDecimals, printNumber } from '../quantity/index.ts';
import type { ShareInterval } from './intervals.ts';
import type { LevelMatch } from './levels.ts';
import { errorLevel, mostTrials } from './plan.ts';
import type { Judged, SessionCount, SessionResult } from './result.ts';

/** Titles of the two alternatives; in a preference test the successes are choices of the first. */
export type Titles = readonly [string, string];

const percent = (share: number, digits = 1) => `${printDecimals(100 * share, digits)}\u00a0%`;
const decibels = (value: number) => `${printDecimals(value, 2)}\u00a0dB`;

/** A probability with two digits; very small ones as a bound. */
export const probabilityText = (p: number): string => (p < 1e-4 ? 'below 0.0001' : printNumber(p, 2));

/** An interval of a share: "38.6 % to 81.5 %". */
export const intervalText = ({ low, high }: ShareInterval): string => `${percent(low)} to ${percent(high)}`;

/** What was counted, in one sentence. */
export function countText({ task, successes, trials }: SessionCount, [first, second]: Titles): string {
  if (trials === 0) return 'No trial is on record.';
  if (task === 'discrimination') return `${successes} of ${trials} answers were right.`;
  return `${first} was preferred in ${successes} of ${trials} trials, ${second} in ${trials - successes}.`;
}

/**
 * What the trials can and cannot show, in full sentences. A probability is given of blind trials only, and a session that
 * did not keep to a number of trials fixed beforehand says so.
 */
export function resultTexts({ count, planning, judged }: SessionResult): string[] {
  if (!count.isBlind) return [count.trials === 0 ? noted : sighted];
  if (count.trials === 0) return [];
  if (!judged) return [];
  const kept = planning === 'kept' ? [] : [planningText(count)];
  const needed = [...aimTexts(count, judged), ...neededTexts(judged)];
  return [probabilitySentence(count, judged), verdict(count, judged), ...needed, ...kept];
}

const noted =
  'It was listened to knowing what was playing: a note of what was noticed, which shows nothing beyond that.';

const sighted =
  'The trials were sighted: everyone knew what was playing, so the answers do not tell what was heard from what was known. No probability is given for them.';

function probabilitySentence({ task, successes, trials }: SessionCount, { pValue }: Judged): string {
  const p = probabilityText(pValue);
  return task === 'discrimination'
    ? `By guessing alone, ${successes} or more right answers of ${trials} come with a probability of ${p} (exact binomial, one-sided).`
    : `If neither were preferred, a division as uneven as this one or more so would come with a probability of ${p} (exact binomial, two-sided).`;
}

function verdict({ task, trials }: SessionCount, { enough, isShown }: Judged): string {
  const level = percent(errorLevel, 0);
  if (enough === null) return `With ${trials} trials nothing can be shown at ${level}, whatever the answers.`;
  const what = task === 'discrimination' ? 'that the two were told apart' : 'a preference';
  if (isShown) return `That is ${level} or less, so the session shows ${what}.`;
  const needed = task === 'discrimination' ? `${enough} right answers` : `${enough} choices of the same one`;
  return `The session does not show ${what}, for which ${needed} would have been needed at ${level}. Nor does it show that the two sound alike.`;
}

function aimTexts({ task }: SessionCount, { aim }: Judged): string[] {
  if (!aim) return [];
  const { effect, power, needed } = aim;
  const share = percent(effect.share, 0);
  const successes = task === 'discrimination' ? 'right answers' : 'choices of the same one';
  const number = needed
    ? `${needed.trials} trials with ${needed.successes} ${successes} would be needed`
    : `more than ${mostTrials} trials would be needed`;
  return [
    `If the true share is ${share}, so many trials find it with a probability of ${percent(power, 0)}; to find it with ${percent(effect.power, 0)}, ${number}.`,
  ];
}

/** How many trials it would have taken, where the session did not say what it was to find. */
function neededTexts({ needed }: Judged): string[] {
  if (needed.length === 0) return [];
  const rows = needed.map(
    ({ share, plan }) => `${plan ? plan.trials : `more than ${mostTrials}`} for ${percent(share, 0)}`,
  );
  const list = `${rows.slice(0, -1).join(', ')} and ${rows.at(-1)}`;
  return [
    `What the session was to find is not stated. The trials that it takes to find a true share with a probability of ${percent(1 - errorLevel, 0)}: ${list}.`,
  ];
}

function planningText({ planned, trials }: SessionCount): string {
  const why =
    'the probability above holds for a number of trials fixed beforehand, and who may stop when it suits finds small ones more often';
  if (planned === null) return `The number of trials was not fixed beforehand: ${why}.`;
  if (trials < planned) return `The session stopped early, after ${trials} of ${planned} trials: ${why}.`;
  return `The session went on after the ${planned} trials that were fixed beforehand, to ${trials}: ${why}.`;
}

/** How far the levels were matched, for a place beside every result; `titleOf` names an alternative by its id. */
export function levelText(match: LevelMatch | null, titleOf: (id: string) => string): string {
  if (!match) {
    return 'How far the levels were matched is not on record, so that what was heard may be a difference in level.';
  }
  const { differenceDb, targetDb, louder, isWithin } = match;
  const target = `the target of ${decibels(targetDb)}`;
  return isWithin
    ? `The levels differed by ${decibels(differenceDb)}, within ${target}.`
    : `The levels differed by ${decibels(differenceDb)}, more than ${target}: ${titleOf(louder)} was louder, and what was heard may be that.`;
}
