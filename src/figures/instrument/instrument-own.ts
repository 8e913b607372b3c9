import { rmaWeight, shorterWeight } from '../../signal/index.ts';
import { ownDistortionAt, ownDistortionOver } from './instrument.ts';
import type { Measured } from './instrument-errors.ts';
import { ownIntermodulation } from './instrument-two-tone.ts';

const ofHarmonics =
  /^(thd|thd-plus-noise|sinad|even-harmonics|odd-harmonics|harmonic-\d+|(thd|harmonic-\d+)-at-.+|thd-mid-band)$/;

/**
 * The largest part that the instrument itself can have in a ratio of distortion: its own, in a weighted sum that of its
 * highest order, in what was added between two channels that of both. Null where the figure is no such ratio or nothing
 * is stated.
 * @source triangle inequality; for weighted sums, no sum of squares exceeds the largest weight times the plain one.
 */
export function ownRatio({ figure: { id }, instrument, channel }: Measured): number | null {
  const { twoTone, frequencyHz, harmonics } = channel;
  if (twoTone?.tones) {
    const { lower, upper } = twoTone.tones;
    const own = ownDistortionOver(instrument, [lower.frequencyHz, upper.frequencyHz]);
    return own === null ? null : ownIntermodulation(id, twoTone, own);
  }
  if (id === 'thd-mid-band') return ownDistortionOver(instrument, [400, 2000]);
  const own = ownDistortionAt(instrument, id.endsWith('-at-1khz') ? 1000 : frequencyHz);
  const times = shareIn(id, harmonics.at(-1)?.order ?? null);
  return own === null || times === null ? null : times * own;
}

/** How often the instrument's own distortion can be in a figure; null for a figure that is no ratio of distortion. */
function shareIn(id: string, highestOrder: number | null): number | null {
  if (ofHarmonics.test(id)) return 1;
  if (isAdded(id)) return 2;
  if (highestOrder === null) return null;
  if (id === 'thd-weighted-rma') return rmaWeight(highestOrder);
  return id === 'thd-weighted-shorter' ? shorterWeight(highestOrder) : null;
}

/** True for what was added between two channels, and for the bounds of it. */
export const isAdded = (id: string): boolean => /^added-(distortion(-least|-most)?|harmonic-\d+)$/.test(id);

/** True for a ratio of distortion that the instrument alone could have given. A lower bound may be nothing anyway. */
export function isOwn(measured: Measured): boolean {
  const own = ownRatio(measured);
  const { id, value } = measured.figure;
  if (own === null || id === 'added-distortion-least') return false;
  return (id === 'sinad' ? 10 ** (-value / 20) : value) <= own;
}
