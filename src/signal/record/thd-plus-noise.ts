import type { FittedRecord } from '../fit/fit-record.ts';
import { bandPower, usableBand } from '../noise/band-power.ts';
import type { Harmonic, ThdPlusNoise } from '../types.ts';

export interface BandOptions {
  rateHz: number;
  bandHz: readonly [number, number];
}

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
  const noise = (2 * bandPower(spectrum, rateHz, band).power) / (amplitude * amplitude);
  return { ratio: Math.sqrt(distortion + noise), reference: 'fundamental', bandHz: band };
}
