/** The way of the signal from the source to the speaker. Volts are rms, impedances in ohms. */

import type { Absent, SwingLimit } from '../sheet-types.ts';

/** The stages of a chain are those of the amplifier, in their order. */
export interface ChainDescription {
  /** Without load. */
  sourceV: number;
  sourceOhm: number;
  /** Of the amplifier; null: it does not load the source. */
  inputOhm: number | null;
  /** Around all stages; 0 for none. */
  feedbackDb: number;
  speakerOhm: number | null;
  /** Of the output transformer, primary over secondary; null: as its load and the speaker need it. */
  turnsRatio: number | null;
}

/** A stage as a link of the chain, for full output of the last one. */
export interface ChainLink {
  stage: string;
  /** Small-signal voltage gain, without sign; at a splitter that of the weaker output. */
  gain: number;
  inputVrms: number;
  outputVrms: number;
  /** The largest undisturbed output, or that at the described drive. */
  largestVrms: number;
  limitedBy: SwingLimit | 'supply';
  /** Largest output over the one wanted; 0 for the last stage. */
  headroomDb: number;
}

export interface ChainSheet {
  links: ChainLink[];
  sourceV: number;
  /** The source's voltage once the input loads it, for full output. */
  inputVrms: number;
  feedbackDb: number;
  /** Source voltage without load for full output of the last stage. */
  sensitivityVrms: number;
  sensitivityWithoutFeedbackVrms: number;
  /** What the source can give over what full output takes; negative where it is too little. */
  marginDb: number;
  /** Null without a transformer. */
  turnsRatio: number | null;
  /** At the load of the last stage, or behind its transformer taken as ideal. */
  speakerVrms: number;
  /** Null where no speaker is stated. */
  speakerOhm: number | null;
  powerW: number | null;
  /** From the source's voltage without load to the speaker's, small signals, feedback included. */
  gainDb: number;
  /** The stage whose output is the first to be used up as the level rises. */
  firstToRunOut: string;
  explanation: string[];
  absent: Absent;
}
