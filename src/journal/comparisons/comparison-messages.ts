import type { Fault } from '../../problem/index.ts';

const listed = (names: readonly string[]) => names.join(', ');

/** Every sentence that the journal room says about comparisons. */
export const comparisonMessages = {
  noFigures: (capture: string): Fault => ({
    rule: 'comparison',
    message: `The capture "${capture}" has no figures that could be compared.`,
    hint: 'Name a waveform, a two-tone capture or a sweep.',
  }),
  whichChannel: (capture: string, channels: readonly string[]): Fault => ({
    rule: 'comparison',
    message: `Several channels of "${capture}" could be meant.`,
    hint: `Name one of them behind a #: ${listed(channels)}.`,
  }),
  noChannel: (channel: string, capture: string, channels: readonly string[]): Fault => ({
    rule: 'unknown-channel',
    message: `The capture "${capture}" has no channel "${channel}" that could be compared.`,
    hint: `It has: ${listed(channels)}.`,
  }),
  twice: (capture: string): Fault => ({
    rule: 'comparison',
    message: `"${capture}" stands for two alternatives, or twice for one.`,
    hint: 'Name every channel of a capture once in a comparison.',
  }),
  unmatched: (capture: string, other: string, what: readonly string[]): Fault => ({
    rule: 'comparison-conditions',
    severity: 'warning',
    message: `"${capture}" and "${other}" are compared, but differ in what must match: ${what.join('; ')}.`,
    hint: 'Measure again under the same conditions, correct what is stated, or take it off mustMatch:.',
  }),
  notExchanged: (capture: string, first: string, second: string): Fault => ({
    rule: 'comparison-control',
    severity: 'warning',
    message: `"${first}" and "${second}" were taken together in "${capture}", on channels that were not exchanged, so that their difference is not separated from the difference between the channels.`,
    hint: 'Take the capture again with the two channels exchanged, and name it in both alternatives.',
  }),
  noEqualLevel: (first: string, second: string, sweeps: string): Fault => ({
    rule: 'comparison-levels',
    severity: 'warning',
    message: `"${first}" and "${second}" both have ${sweeps}, but under nothing that both share, so that these are not compared.`,
    hint: 'Sweeps over frequency are compared at one output power or one input voltage, between the levels that were taken; sweeps over level at one stated frequency. Add a sweep that closes the gap.',
  }),
  nothingShared: (first: string, second: string): Fault => ({
    rule: 'comparison',
    severity: 'warning',
    message: `"${first}" and "${second}" have no capture of one kind, so that nothing of them can be compared.`,
    hint: 'Name captures of the same kind for both.',
  }),
  noFigure: (figure: string, alternative: string, known: readonly string[]): Fault => ({
    rule: 'unknown-figure',
    message: `No capture of "${alternative}" has the figure "${figure}".`,
    hint: known.length > 0 ? `They have: ${listed(known.slice(0, 12))}.` : 'They have none.',
  }),
  noSweep: (figure: string, alternative: string): Fault => ({
    rule: 'unknown-figure',
    message: `No frequency sweep of "${alternative}" has a column for "${figure}".`,
    hint: 'Name a frequency sweep that has it, or leave over: out.',
  }),
  noDirection: (figure: string): Fault => ({
    rule: 'criterion',
    message: `Neither a lower nor a higher "${figure}" is better by itself.`,
    hint: 'Add better: lower or better: higher.',
  }),
  noPart: (alternative: string): Fault => ({
    rule: 'criterion',
    message: `The alternative "${alternative}" names no part to read it from.`,
    hint: 'Add part: to the alternative, or write stated: in the criterion.',
  }),
  otherSession: (session: string): Fault => ({
    rule: 'criterion',
    message: `The session "${session}" does not belong to this comparison.`,
    hint: 'Write comparison: with the id of this comparison in the session.',
  }),
  otherAlternative: (alternative: string, comparison: string, known: readonly string[]): Fault => ({
    rule: 'listening',
    message: `The comparison "${comparison}" has no alternative "${alternative}".`,
    hint: `Call both alternatives as they are called there: ${listed(known)}.`,
  }),
} as const;
