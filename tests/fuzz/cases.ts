import { journalTargets } from './journal-targets.ts';
import { chanceOf } from './mutations.ts';
import { unsound } from './soundness.ts';
import type { Outcome, Target } from './target.ts';
import { textTargets } from './text-targets.ts';

export const targets: Readonly<Record<string, Target>> = { ...textTargets, ...journalTargets };

/** One in so many cases is read a second time, which must give the same. */
const secondReadings = 10;

/** Reads one case of a target; null, or what is wrong with how it was read. */
export async function failureOf(name: string, seed: number, number: number): Promise<string | null> {
  const target = targets[name];
  if (!target) return `There is no target ${name}; there are ${Object.keys(targets).join(', ')}.`;
  try {
    const read = target.read(chanceOf(seed * 1_000_003 + number * 7919));
    const outcome = await read();
    const again = number % secondReadings === 0 ? await read() : outcome;
    return faultOf(outcome) ?? (sameAs(outcome, again) ? null : 'A second reading gives something else.');
  } catch (error) {
    return error instanceof Error ? (error.stack ?? error.message) : String(error);
  }
}

function faultOf({ problems, text }: Outcome): string | null {
  for (const problem of problems) {
    const fault = unsound(problem, text);
    if (fault) return `A problem ${fault}: ${JSON.stringify(problem)}`;
  }
  return null;
}

const sameAs = (one: Outcome, other: Outcome) =>
  one === other || JSON.stringify(one) === JSON.stringify(other);
