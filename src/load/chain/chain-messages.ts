import type { LoadFault } from '../types.ts';

export const chainWithoutStages = (): LoadFault => ({
  rule: 'load/chain',
  message: 'A chain is described, but no stage that the signal passes through.',
  hint: 'Add the stages from the first to the last under stages:, or take the chain out.',
  path: [],
});

export const stageWithoutGain = (id: string): LoadFault => ({
  rule: 'load/chain',
  message: `The stage "${id}" has no gain or no undisturbed output, so that the chain through it cannot be followed.`,
  hint: 'Mend the stage, or give it the load and the bias that its figures need.',
  path: [],
});

export const speakerMissing = (id: string): LoadFault => ({
  rule: 'load/missing-value',
  message: `The stage "${id}" plays through a transformer, but the impedance of the speaker is not stated.`,
  hint: 'Add it to the chain, for example speaker: 8 Ω, or give the version a ratedLoad.',
  path: ['speaker'],
});

export const feedbackRange = (): LoadFault => ({
  rule: 'load/out-of-range',
  message: 'Feedback is a reduction of the gain by 0 dB to 60 dB.',
  hint: 'Write by how much the feedback lowers the gain, without a sign, for example feedback: 6 dB.',
  path: ['feedback'],
});

export const noSpeaker = () => 'No speaker is stated, so that there is no power at it.';
