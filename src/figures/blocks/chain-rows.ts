import type { ChainLink, ChainSheet } from '../../load/index.ts';
import { printNumber, quantityText } from '../../quantity/index.ts';
import type { Fact } from './fact-block.ts';

/** One point of the chain, printed: what arrives, what leaves, what could leave. */
export interface ChainRow {
  at: string;
  input: string;
  gain: string;
  output: string;
  largest: string;
  headroom: string;
}

const none = '';

/** The chain from source to speaker, one row a point, at full output of the last stage. */
export function chainRows(chain: ChainSheet): ChainRow[] {
  const { inputVrms, sensitivityVrms, feedbackDb, sourceV, marginDb } = chain;
  const source: ChainRow = {
    at: 'Source',
    input: none,
    gain: none,
    output: volts(inputVrms),
    largest: volts(sourceV),
    headroom: quantityText(marginDb, 'dB', 3),
  };
  const feedback: ChainRow[] =
    feedbackDb === 0
      ? []
      : [
          {
            at: 'Feedback',
            input: volts(inputVrms),
            gain: quantityText(-feedbackDb, 'dB', 3),
            output: volts((inputVrms * chain.sensitivityWithoutFeedbackVrms) / sensitivityVrms),
            largest: none,
            headroom: none,
          },
        ];
  return [source, ...feedback, ...chain.links.map(linkRow), speakerRow(chain)];
}

function linkRow({ stage, gain, inputVrms, outputVrms, largestVrms, headroomDb }: ChainLink): ChainRow {
  return {
    at: stage,
    input: volts(inputVrms),
    gain: `${printNumber(gain)}×`,
    output: volts(outputVrms),
    largest: volts(largestVrms),
    headroom: quantityText(headroomDb, 'dB', 3),
  };
}

function speakerRow({ links, turnsRatio, speakerVrms, speakerOhm, powerW }: ChainSheet): ChainRow {
  const power = powerW === null ? '' : `, ${quantityText(powerW, 'W')}`;
  return {
    at: speakerOhm === null ? 'Load' : `Speaker, ${quantityText(speakerOhm, 'Ω')}`,
    input: volts(links.at(-1)?.outputVrms ?? 0),
    gain: turnsRatio === null ? none : `${printNumber(turnsRatio)} to 1`,
    output: `${volts(speakerVrms)}${power}`,
    largest: none,
    headroom: none,
  };
}

/** What the chain comes to as a whole. */
export function chainFacts(chain: ChainSheet): Fact[] {
  const { sensitivityVrms, sensitivityWithoutFeedbackVrms, feedbackDb, gainDb, firstToRunOut } = chain;
  const without = { name: 'Without feedback', value: `${volts(sensitivityWithoutFeedbackVrms)} rms` };
  return [
    { name: 'Sensitivity for full output', value: `${volts(sensitivityVrms)} rms` },
    ...(feedbackDb === 0 ? [] : [without]),
    { name: 'Gain, source to speaker', value: quantityText(gainDb, 'dB', 3) },
    { name: 'First to run out', value: firstToRunOut },
  ];
}

/** What makes two versions play equally loud from one source, in a sentence. */
export function trimSentence(trimDb: number, otherTitle: string): string {
  const size = quantityText(Math.abs(trimDb), 'dB', Math.abs(trimDb) < 1 ? 1 : 3);
  if (Math.abs(trimDb) < 0.05)
    return `From source to speaker this version has the gain of ${otherTitle}: no trim is needed.`;
  const [more, turn] = trimDb < 0 ? ['more', 'turn it down'] : ['less', 'turn the other down'];
  return (
    `From source to speaker this version has ${size} ${more} gain than ${otherTitle}: to compare the two by ear, ` +
    `${turn} by ${size}.`
  );
}

const volts = (value: number) => quantityText(value, 'V');
