import { printNumber, quantityText } from '../quantity/index.ts';
import type { Candidate } from './types.ts';

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
  return [`${range}${stands}.`, ...disputes.flatMap((dispute) => dispute(answers))];
}

function standing(chosenOhm: number, leastOhm: number, mostOhm: number): string {
  if (chosenOhm < leastOhm) return 'the load of this stage is below all of them';
  return chosenOhm > mostOhm
    ? 'the load of this stage is above all of them'
    : 'the load of this stage is among them';
}

const named = ({ loadOhm, method }: Answer) => `${quantityText(loadOhm, 'Ω')} (${method})`;

type Dispute = (answers: readonly Answer[]) => string[];

/** The two rules named by their chart labels, where both answer and differ; the larger ratio of their loads. */
function apart(answers: readonly Answer[], one: string, other: string) {
  const first = answers.find(({ short }) => short === one);
  const second = answers.find(({ short }) => short === other);
  if (!first || !second) return null;
  const times = Math.max(first.loadOhm / second.loadOhm, second.loadOhm / first.loadOhm);
  return times > worthAWord ? { first, second, times: printNumber(times, 2) } : null;
}

const movedSheets: Dispute = (answers) => {
  const found = apart(answers, 'sheet, 3/2', 'sheet, U/I');
  if (!found) return [];
  const { first, second, times } = found;
  return [
    `Moved to this operating point the data-sheet load becomes ${quantityText(first.loadOhm, 'Ω')} or ` +
      `${quantityText(second.loadOhm, 'Ω')}, ${times} times apart: the three-halves-power law lets the current grow ` +
      'with the voltage, so that the load falls as the voltage rises; voltage over current keeps to the current that ' +
      'was set, so that the load rises with the voltage.',
  ];
};

const powerAgainstPurity: Dispute = (answers) => {
  const found = apart(answers, 'most power', 'least THD');
  if (!found) return [];
  const { first, second, times } = found;
  return [
    `Most power and least distortion are ${times} times apart, at ${quantityText(first.loadOhm, 'Ω')} and ` +
      `${quantityText(second.loadOhm, 'Ω')}: no load is best at both, so that a rule that does not say which it is ` +
      'after cannot be compared with one that does.',
  ];
};

const smallSignalAgainstSwing: Dispute = (answers) => {
  const found = apart(answers, '2 rp', 'U/I − 2rp');
  if (!found) return [];
  const { first, second, times } = found;
  return [
    `Twice rp (${quantityText(first.loadOhm, 'Ω')}) and the swing between rest and zero grid volts ` +
      `(${quantityText(second.loadOhm, 'Ω')}) are ${times} times apart: the first leaves the bias free to choose, the ` +
      'second takes voltage and current at rest as they are.',
  ];
};

const kneeAgainstPurity: Dispute = (answers) => {
  const found = apart(answers, 'knee', 'least THD');
  if (!found) return [];
  const { first, second, times } = found;
  return [
    `The swing to the knee of the curve (${quantityText(first.loadOhm, 'Ω')}) and the least distortion ` +
      `(${quantityText(second.loadOhm, 'Ω')}) are ${times} times apart: the first looks at the two ends of the swing ` +
      'only, the second at the whole of it.',
  ];
};

const disputes: readonly Dispute[] = [
  movedSheets,
  powerAgainstPurity,
  smallSignalAgainstSwing,
  kneeAgainstPurity,
];
