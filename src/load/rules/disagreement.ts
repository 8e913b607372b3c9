import { printNumber, quantityText } from '../../quantity/index.ts';
import type { Candidate } from '../types.ts';

type Answer = Candidate & { loadOhm: number };

/** Rules further apart than this contradict each other. */
const worthAWord = 1.2;

/**
 * How far the rules are apart and where the load of the stage stands among them, then a sentence for each pair of rules
 * of different intent that are further apart than 1.2 times. Empty where fewer than two rules have an answer.
 */
export function explainDisagreement(candidates: readonly Candidate[], chosenOhm: number | null): string[] {
  const answers = candidates
    .filter((one): one is Answer => one.loadOhm !== null)
    .sort((a, b) => a.loadOhm - b.loadOhm);
  const [least, most] = [answers[0], answers.at(-1)];
  if (!least || !most || least === most) return [];
  const range =
    `The rules ask for loads from ${named(least)} to ${named(most)}, ` +
    `${printNumber(most.loadOhm / least.loadOhm, 2)} times apart`;
  const stands = chosenOhm === null ? '' : `; ${standing(chosenOhm, least.loadOhm, most.loadOhm)}`;
  return [`${range}${stands}.`, ...disputes.flatMap((dispute) => told(dispute, answers))];
}

function standing(chosenOhm: number, leastOhm: number, mostOhm: number): string {
  if (chosenOhm < leastOhm) return 'the load of this stage is below all of them';
  return chosenOhm > mostOhm
    ? 'the load of this stage is above all of them'
    : 'the load of this stage is among them';
}

const named = ({ loadOhm, method }: Answer) => `${quantityText(loadOhm, 'Ω')} (${method})`;

/** Two rules of different intent, by their labels or what those begin with, and why their loads are so many times apart. */
interface Dispute {
  between: readonly [string, string];
  because: (first: string, second: string, times: string) => string;
}

/** A label that ends in a preposition is the beginning of one. */
const isLabelled =
  (label: string) =>
  ({ short }: Answer) =>
    label.endsWith(' at') ? short.startsWith(label) : short === label;

/** The sentence of a dispute; none where a rule has no answer or both nearly agree. */
function told({ between, because }: Dispute, answers: readonly Answer[]): string[] {
  const [first, second] = between.map((label) => answers.find(isLabelled(label))?.loadOhm);
  if (first === undefined || second === undefined) return [];
  const times = Math.max(first / second, second / first);
  return times > worthAWord
    ? [because(quantityText(first, 'Ω'), quantityText(second, 'Ω'), printNumber(times, 2))]
    : [];
}

const disputes: readonly Dispute[] = [
  {
    between: ['sheet by 3/2', 'sheet by U/I'],
    because: (first, second, times) =>
      `Moved to this operating point the data-sheet load becomes ${first} or ${second}, ${times} times apart: the ` +
      'three-halves-power law lets the current grow with the voltage, so that the load falls as the voltage rises; ' +
      'voltage over current keeps to the current that was set, so that the load rises with the voltage.',
  },
  {
    between: ['most power', 'least THD'],
    because: (first, second, times) =>
      `Most power and least distortion are ${times} times apart, at ${first} and ${second}: no load is best at both, ` +
      'so that a rule that does not say which it is after cannot be compared with one that does.',
  },
  {
    between: ['least THD', 'least THD at'],
    because: (first, second, times) =>
      `Least distortion at full drive (${first}) and at the stated power (${second}) are ${times} times apart: with less ` +
      'drive the swing stays clear of the bends at its ends, so that another load is best. The question is at which ' +
      'power the amplifier will be heard.',
  },
  {
    between: ['most power', 'most power at'],
    because: (first, second, times) =>
      `Most power of all (${first}) and at the stated distortion (${second}) are ${times} times apart: the last watts ` +
      'are paid for in distortion.',
  },
  {
    between: ['2 rp', 'U/I − 2rp'],
    because: (first, second, times) =>
      `Twice rp (${first}) and the swing between rest and zero grid volts (${second}) are ${times} times apart: the ` +
      'first leaves the bias free to choose, the second takes voltage and current at rest as they are.',
  },
  {
    between: ['knee', 'least THD'],
    because: (first, second, times) =>
      `The swing to the knee of the curve (${first}) and the least distortion (${second}) are ${times} times apart: ` +
      'the first looks at the two ends of the swing only, the second at the whole of it.',
  },
];
