import { quantityText } from '../../quantity/index.ts';
import type { ChainLink, ChainSheet } from '../types.ts';

type Figures = Omit<ChainSheet, 'explanation' | 'absent'>;

const volts = (value: number) => `${quantityText(value, 'V')} rms`;
const decibels = (value: number) => quantityText(Math.abs(value), 'dB', Math.abs(value) < 1 ? 1 : 2);

/** A few sentences on the chain; every number in them is a figure of the sheet. */
export function explainChain(sheet: Figures): string[] {
  return [sensitivity(sheet), source(sheet), ...runningOut(sheet), trim(sheet), caution(sheet)];
}

function sensitivity({
  links,
  sensitivityVrms,
  sensitivityWithoutFeedbackVrms,
  feedbackDb,
  powerW,
}: Figures) {
  const last = links.at(-1);
  const into = powerW === null ? '' : ` (${quantityText(powerW, 'W')} at the speaker)`;
  const full = `Full output of the stage ${last?.stage}${into} takes ${volts(sensitivityVrms)} from the source`;
  return feedbackDb === 0
    ? `${full}; there is no feedback.`
    : `${full} with ${decibels(feedbackDb)} of feedback, and ${volts(sensitivityWithoutFeedbackVrms)} without it.`;
}

function source({ sourceV, marginDb }: Figures): string {
  const given = `The source gives ${volts(sourceV)}`;
  return marginDb >= 0
    ? `${given}, ${decibels(marginDb)} more than that: a volume control has as much to take away.`
    : `${given}, ${decibels(marginDb)} less than that: full output is not reached.`;
}

function runningOut({ links, firstToRunOut }: Figures): string[] {
  const last = links.at(-1);
  const first = links.find(({ stage }) => stage === firstToRunOut);
  if (!first || !last) return [];
  if (first !== last) return [before(first, last)];
  const next = links
    .slice(0, -1)
    .reduce<ChainLink | null>(
      (least, link) => (least && least.headroomDb <= link.headroomDb ? least : link),
      null,
    );
  const spare = next
    ? `; of those before it ${next.stage} has least to spare, ${decibels(next.headroomDb)}`
    : '';
  return [`As the level rises the stage ${last.stage} runs out first${spare}.`];
}

const before = ({ stage, headroomDb, largestVrms, outputVrms }: ChainLink, last: ChainLink) =>
  `The stage ${stage} runs out ${decibels(headroomDb)} before ${last.stage} is at full output: it gives ` +
  `${volts(largestVrms)} undisturbed, and ${volts(outputVrms)} are wanted of it.`;

const trim = ({ gainDb }: Figures) =>
  `From source to speaker the voltage gain is ${quantityText(gainDb, 'dB', 3)} for small signals; an alternative ` +
  'with another gain must be trimmed by the difference before the two are compared by ear.';

function caution({ turnsRatio, feedbackDb, speakerVrms, links }: Figures): string {
  const passed = (speakerVrms * (turnsRatio ?? 1)) / (links.at(-1)?.outputVrms ?? speakerVrms);
  const ideal = turnsRatio !== null && Math.abs(passed - 1) < 1e-9;
  const transformer = ideal ? ' The transformer is taken as ideal.' : '';
  const feedback = feedbackDb === 0 ? '' : ' Feedback is counted by its effect on the gain alone.';
  return `These are levels at mid-band, where no capacitor and no inductance counts.${transformer}${feedback}`;
}
