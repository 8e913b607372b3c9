import { rmaWeight, shorterWeight } from '../../signal/index.ts';
import type { Measured, MeasuredChannel } from './instrument-errors.ts';
import { intermodulationLines } from './instrument-two-tone.ts';

/** How many times larger than its reading a line of some frequency may be. */
type Loss = (hertz: number) => number;

/**
 * How far a figure may be off because its instrument reads lines of high frequency too low, in the figure's unit; null
 * where no bandwidth is stated or it does not touch the figure. Below its bandwidth, which is where it may be 3 dB low,
 * no flat low-pass loses more than one of first order.
 * @source |H|² = 1/(1 + (f/B)²); Butterworth: (f/B)^2k falls with k where f < B. From memory.
 */
export function bandLimit({ figure, instrument, channel }: Measured): number | null {
  const { bandwidthHz } = instrument;
  if (bandwidthHz === undefined) return null;
  const loss: Loss = (hertz) => Math.hypot(1, hertz / bandwidthHz);
  const times = channel.twoTone ? ofTones(figure.id, channel, loss) : ofSine(figure, channel, loss);
  if (times === null) return null;
  return figure.id === 'sinad' ? 20 * Math.log10(times) : Math.abs(figure.value) * Math.abs(times - 1);
}

/** True for a harmonic beyond the stated bandwidth, of which the reading says little. */
export function isBeyondBand({ figure, instrument: { bandwidthHz }, channel }: Measured): boolean {
  const order = orderOf(figure.id);
  const hertz = fundamentalOf(figure.id, channel);
  return bandwidthHz !== undefined && order !== null && hertz !== null && order * hertz > bandwidthHz;
}

function orderOf(id: string): number | null {
  const [, order] = /^harmonic-(\d+)(-at-1khz)?$/.exec(id) ?? [];
  return order === undefined ? null : Number(order);
}

const fundamentalOf = (id: string, { frequencyHz }: MeasuredChannel) =>
  id.endsWith('-at-1khz') ? 1000 : frequencyHz;

function ofSine(figure: Measured['figure'], channel: MeasuredChannel, loss: Loss): number | null {
  const { id } = figure;
  const hertz = fundamentalOf(id, channel);
  if (hertz === null) return null;
  if (/^(fundamental-level|rms|level-at-1khz)$/.test(id)) return loss(hertz);
  if (/^(fundamental|output)-power$/.test(id)) return loss(hertz) ** 2;
  const order = orderOf(id);
  if (order !== null) return loss(order * hertz) / loss(hertz);
  return ofSums(figure, channel, (line) => loss(line * hertz) / loss(hertz));
}

const weights: Readonly<Record<string, (order: number) => number>> = {
  thd: () => 1,
  'added-distortion-least': () => 1,
  'added-distortion-most': () => 1,
  'even-harmonics': (order) => (order + 1) % 2,
  'odd-harmonics': (order) => order % 2,
  'thd-weighted-rma': rmaWeight,
  'thd-weighted-shorter': shorterWeight,
};

/** Sums over harmonics; of THD+N the harmonics alone, as the rest is that of the band which the instrument passes. */
function ofSums(
  { id, value }: Measured['figure'],
  { harmonics }: MeasuredChannel,
  loss: (order: number) => number,
): number | null {
  if (harmonics.length === 0) return null;
  const total = (weight: (order: number) => number) =>
    Math.hypot(...harmonics.map(({ order, ratio }) => weight(order) * ratio));
  const weight = Object.hasOwn(weights, id) ? weights[id] : undefined;
  if (weight) {
    const read = total(weight);
    return read > 0 ? total((order) => weight(order) * loss(order)) / read : null;
  }
  if (id !== 'thd-plus-noise' && id !== 'sinad') return null;
  const whole = id === 'sinad' ? 10 ** (-value / 20) : value;
  return Math.hypot(1, Math.sqrt(Math.max(0, total(loss) ** 2 - total(() => 1) ** 2)) / whole);
}

/** Of a figure of two tones the loss of the line that loses most, or gains most, re either tone. */
function ofTones(id: string, { twoTone }: MeasuredChannel, loss: Loss): number | null {
  const tones = twoTone?.tones;
  if (!tones) return null;
  const references = [loss(tones.lower.frequencyHz), loss(tones.upper.frequencyHz)] as const;
  if (id === 'lower-tone-level') return references[0];
  if (id === 'upper-tone-level') return references[1];
  const lines = intermodulationLines(id, twoTone).map(({ frequencyHz }) => loss(frequencyHz));
  if (lines.length === 0) return null;
  return 1 + Math.max(...lines.flatMap((line) => references.map((one) => Math.abs(line / one - 1))));
}
