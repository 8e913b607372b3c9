import { quantityText } from '../../quantity/index.ts';

/** Distortion that an instrument adds to a sine of one frequency, as a ratio to it. */
export interface OwnDistortion {
  frequencyHz: number;
  ratio: number;
}

/** What is stated about an instrument; a term left out is not known and does not count. */
export interface Instrument {
  name: string;
  /** Limit of the error of its gain, as a share: 0.03. */
  gainAccuracy?: number;
  /** Limit of the error of its clock, as a share: 0.00005. */
  clockAccuracy?: number;
  /** Frequency at which it may read 3 dB low. */
  bandwidthHz?: number;
  /** Resolution of its converter. */
  bits?: number;
  /** Largest voltage that it takes, as a peak to either side. */
  largestInput?: number;
  /** Bounds of its own total harmonic distortion, in ascending order; one entry holds for every frequency. */
  ownDistortion?: readonly OwnDistortion[];
}

/**
 * Own distortion at a frequency, straight over its logarithm between two stated ones and held beyond the ends. Null
 * where none is stated; without a frequency it is the largest.
 */
export function ownDistortionAt(
  { ownDistortion: stated = [] }: Instrument,
  hertz: number | null,
): number | null {
  const [first, last] = [stated[0], stated.at(-1)];
  if (!first || !last) return null;
  if (hertz === null) return Math.max(...stated.map(({ ratio }) => ratio));
  if (hertz <= first.frequencyHz) return first.ratio;
  const above = stated.findIndex(({ frequencyHz }) => frequencyHz >= hertz);
  const [from, to] = [stated[above - 1], stated[above]];
  if (!from || !to) return last.ratio;
  const share = Math.log(hertz / from.frequencyHz) / Math.log(to.frequencyHz / from.frequencyHz);
  return from.ratio + share * (to.ratio - from.ratio);
}

/** The largest own distortion between two frequencies; null where none is stated. */
export function ownDistortionOver(
  instrument: Instrument,
  [from, to]: readonly [number, number],
): number | null {
  const inside = (instrument.ownDistortion ?? []).filter(
    ({ frequencyHz }) => frequencyHz > from && frequencyHz < to,
  );
  const ends = [from, to].flatMap((hertz) => ownDistortionAt(instrument, hertz) ?? []);
  return ends.length === 0 ? null : Math.max(...ends, ...inside.map(({ ratio }) => ratio));
}

/** Step of the converter in volts at the circuit; null where bits or largest input are not stated. */
export function converterStep({ bits, largestInput }: Instrument): number | null {
  return bits === undefined || largestInput === undefined ? null : largestInput / 2 ** (bits - 1);
}

/** What is stated about an instrument, one term each: "gain within 3 %". */
export function instrumentTerms(instrument: Instrument): string[] {
  const { gainAccuracy, clockAccuracy, bandwidthHz, bits, largestInput } = instrument;
  return [
    ...(gainAccuracy === undefined ? [] : [`gain within ${percent(gainAccuracy)}`]),
    ...(clockAccuracy === undefined
      ? []
      : [`clock within ${Number((1e6 * clockAccuracy).toPrecision(3))}\u00a0ppm`]),
    ...(bandwidthHz === undefined ? [] : [`band up to ${quantityText(bandwidthHz, 'Hz')}`]),
    ...ownTerm(instrument),
    ...(bits === undefined ? [] : [`${bits} bits`]),
    ...(largestInput === undefined ? [] : [`up to ${quantityText(largestInput, 'V')} peak`]),
  ];
}

/** The instrument as one text: "Eight-bit scope: gain within 3 %, own distortion 0.3 %". */
export function instrumentText(instrument: Instrument): string {
  const terms = instrumentTerms(instrument);
  return `${instrument.name}: ${terms.length > 0 ? terms.join(', ') : 'nothing stated about its errors'}`;
}

function ownTerm({ ownDistortion: stated = [] }: Instrument): string[] {
  const [first, last] = [stated[0], stated.at(-1)];
  if (!first || !last) return [];
  if (first === last) return [`own distortion ${percent(first.ratio)}`];
  const readings = stated.map(
    ({ frequencyHz, ratio }) => `${percent(ratio)} at ${quantityText(frequencyHz, 'Hz')}`,
  );
  return [`own distortion ${readings.join(', ')}, held beyond these`];
}

const percent = (ratio: number) => `${Number((100 * ratio).toPrecision(3))}\u00a0%`;
