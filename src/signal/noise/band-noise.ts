import { densityLeft, type Remainder } from '../fit/remainder.ts';
import type { BandOptions } from '../record/thd-plus-noise.ts';
import { bandPower, usableBand } from './band-power.ts';
import { type NoiseWeight, noiseWeights } from './noise-weights.ts';

/** A level of noise with its 95 % interval, which answers for the length of the record. */
export interface NoiseLevel {
  rms: number;
  low: number;
  high: number;
}

/** Noise within a band, without hum and without harmonics. */
export interface BandNoise {
  /** The band used, which may be narrower than the one asked for. */
  bandHz: [number, number];
  unweighted: NoiseLevel;
  aWeighted: NoiseLevel;
  /** Weighted as ITU-R BS.468 says, but as an rms value: its own detector reads peaks. */
  itu468: NoiseLevel;
}

const deviate = 1.959963984540054;

/**
 * Noise within a band from what is left of a record without constant, harmonics and hum. The power that noise had at
 * the lines taken away went with them; the density near each puts it back. Null where nothing is left of the band.
 *
 * @source Parseval's theorem; the spread of a sum of periodogram ordinates, independent exponentials: Brockwell and
 * Davis, Time Series: Theory and Methods, 2nd ed., theorem 10.3.2, from memory.
 */
export function bandNoise(remainder: Remainder, { rateHz, bandHz }: BandOptions): BandNoise | null {
  const band = usableBand(bandHz, rateHz, remainder.values.length);
  if (band === null) return null;
  const refill = refillOf(remainder, rateHz, band);
  const level = (weight?: NoiseWeight) => levelOf(remainder, rateHz, band, refill, weight);
  return {
    bandHz: band,
    unweighted: level(),
    aWeighted: level(noiseWeights.aWeighted),
    itu468: level(noiseWeights.itu468),
  };
}

/** Power that went with a line. */
interface Refill {
  frequencyHz: number;
  power: number;
}

function refillOf(remainder: Remainder, rateHz: number, [low, high]: [number, number]) {
  const { values, taken } = remainder;
  return taken
    .map((cycles) => ({ cycles, frequencyHz: (cycles * rateHz) / values.length }))
    .filter(({ frequencyHz }) => frequencyHz >= low && frequencyHz <= high)
    .map(({ cycles, frequencyHz }): Refill => {
      const { density } = densityLeft(remainder, cycles);
      return { frequencyHz, power: (2 * density) / values.length };
    });
}

function levelOf(
  { spectrum, values }: Remainder,
  rateHz: number,
  band: [number, number],
  refill: readonly Refill[],
  weight?: NoiseWeight,
): NoiseLevel {
  const { power, squares } = bandPower(spectrum, rateHz, band, weight?.ofLines(values.length, rateHz));
  const restored = refill.reduce((sum, line) => sum + line.power * (weight?.at(line.frequencyHz) ?? 1), 0);
  const rms = Math.sqrt(power + restored);
  const spread = power > 0 ? Math.min(0.5, Math.sqrt(squares / 2) / (2 * power)) : 0;
  return { rms, low: rms * (1 - deviate * spread), high: rms * (1 + deviate * spread) };
}
