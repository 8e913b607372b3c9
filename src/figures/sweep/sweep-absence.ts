import { printNumber, quantityText } from '../../quantity/index.ts';
import type { DistortionEdge } from '../../signal/index.ts';

const percent = (ratio: number) => `${printNumber(100 * ratio, 3)}\u00a0%`;
const hertz = (value: number) => quantityText(value, 'Hz');
const listed = (names: readonly string[]) =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

/** Why a figure of a sweep does not exist, in full sentences. */
export const absence = {
  noMidBand: () => 'The sweep does not cover the middle of the band, from 400 Hz to 2 kHz.',
  endBelow: ({ end }: DistortionEdge) =>
    `Not reached: ${percent(end.ratio)} at ${hertz(end.atHz)}, where the sweep ends.`,
  alwaysAbove: ({ ratio }: DistortionEdge) => `THD is above ${percent(ratio)} in the whole sweep.`,
  onset: (why: 'no law' | 'stays below') =>
    why === 'no law'
      ? 'THD follows no law at lower power from which it could be seen to depart.'
      : 'THD does not leave its laws before the sweep ends.',
  gain: (why: 'no small signal' | 'stays above') =>
    why === 'no small signal'
      ? 'The sweep has too few readings between a thousandth and a tenth of its largest power.'
      : 'The gain does not fall so far before the sweep ends.',
  noLaw: () => 'No straight run over 8 dB of level stands out of the scatter of the readings.',
  bandsPartly: (names: readonly string[]) =>
    `Left out, as they lie only partly within the sweep: ${listed(names)}.`,
  bandsEmpty: (names: readonly string[]) => `Left out, as no reading lies within them: ${listed(names)}.`,
  noRated: () => 'The smallest modulus is below 3.2 Ω, which is 80 % of 4 Ω, the smallest rated value.',
  noResonance: () => 'The modulus has no hill of 2 dB up to 1 kHz within the sweep.',
  noInductance: () =>
    'The modulus rises in proportion to frequency over no octave of the sweep with a phase near 90°, so no inductance can be read.',
  noReference: () => 'The sweep does not cover 1 kHz.',
  noRatedLoad: () => 'No rated load is stated; write ratedLoad: 8 Ω at the capture, or in the version.',
  noOutput: () => 'The two levels give no output impedance.',
  negative: () => 'The levels give no output impedance above zero.',
  nothingShared: () => 'Output impedance and loudspeaker impedance do not both cover 1 kHz.',
};
