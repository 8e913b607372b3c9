import type { FittedRecord } from './fit-record.ts';
import type { ResidualSpectrum } from './residual-density.ts';
import type { Harmonic, ThdPlusNoise } from './types.ts';

export interface BandOptions {
  rateHz: number;
  bandHz: readonly [number, number];
}

/** Part of a line by which an edge of a band may miss it through rounding. */
const rounding = 1e-6;

/**
 * Distortion and noise within a band, re the fundamental: the fitted harmonics inside it and the residual's power
 * there. Null where the record has nothing of the band.
 *
 * @source THD+N re the fundamental, so that SINAD = −20·lg(ratio) is the form of IEEE Std 1241 and 1057 (from memory).
 */
export function thdPlusNoise(
  { amplitude, spectrum, residual }: Pick<FittedRecord, 'amplitude' | 'spectrum' | 'residual'>,
  harmonics: readonly Harmonic[],
  { rateHz, bandHz }: BandOptions,
): ThdPlusNoise | null {
  const band = usableBand(bandHz, rateHz, residual.length);
  if (band === null) return null;
  const [low, high] = band;
  const distortion = harmonics
    .filter(({ frequencyHz }) => frequencyHz >= low && frequencyHz <= high)
    .reduce((sum, { ratio }) => sum + ratio * ratio, 0);
  const noise = (2 * bandPower(spectrum, rateHz, band)) / (amplitude * amplitude);
  return { ratio: Math.sqrt(distortion + noise), reference: 'fundamental', bandHz: band };
}

/**
 * The part of a band that a record can say something about: no lower than one cycle over the record's length, no
 * higher than half the sampling rate. Null where nothing is left, or where the band is not one.
 */
function usableBand(
  [low, high]: readonly [number, number],
  rateHz: number,
  rows: number,
): [number, number] | null {
  const lowHz = Math.max(low, rateHz / rows);
  const highHz = Math.min(high, rateHz / 2);
  return lowHz < highHz ? [lowHz, highHz] : null;
}

/**
 * Mean square of a residual within a band: the sum over the record's lines from one edge to the other, the edges
 * included, so that a line at 20 kHz belongs to the band up to 20 kHz.
 * @source Parseval's theorem for the discrete Fourier transform.
 */
function bandPower({ own, length }: ResidualSpectrum, rateHz: number, [low, high]: [number, number]): number {
  const first = Math.max(1, Math.ceil((low * length) / rateHz - rounding));
  const last = Math.min(own.length - 1, Math.floor((high * length) / rateHz + rounding));
  let sum = 0;
  for (let line = first; line <= last; line++) sum += sides(line, length) * (own[line] ?? 0);
  return sum / length;
}

/** Lines stand for their mirror image as well, but the one at half the sampling rate is its own. */
const sides = (line: number, length: number) => (2 * line === length ? 1 : 2);
