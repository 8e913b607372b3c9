import type { ResidualSpectrum } from './residual-density.ts';

/** Part of a line by which an edge of a band may miss it through rounding. */
const rounding = 1e-6;

/**
 * The part of a band that a record can say something about: no lower than one cycle over the record's length, no
 * higher than half the sampling rate. Null where nothing is left, or where the band is not one.
 */
export function usableBand(
  [low, high]: readonly [number, number],
  rateHz: number,
  rows: number,
): [number, number] | null {
  const lowHz = Math.max(low, rateHz / rows);
  const highHz = Math.min(high, rateHz / 2);
  return lowHz < highHz ? [lowHz, highHz] : null;
}

/** Mean square within a band, and the sum of the squares of the parts that the lines have in it. */
export interface BandPower {
  power: number;
  squares: number;
}

/** Power that a line at a frequency keeps. */
export type PowerWeight = (frequencyHz: number) => number;

/**
 * Mean square of a residual within a band: the sum over the record's lines from one edge to the other, the edges
 * included, so that a line at 20 kHz belongs to the band up to 20 kHz.
 * @source Parseval's theorem for the discrete Fourier transform.
 */
export function bandPower(
  { own, length }: ResidualSpectrum,
  rateHz: number,
  [low, high]: readonly [number, number],
  weight: PowerWeight = () => 1,
): BandPower {
  const first = Math.max(1, Math.ceil((low * length) / rateHz - rounding));
  const last = Math.min(own.length - 1, Math.floor((high * length) / rateHz + rounding));
  let [power, squares] = [0, 0];
  for (let line = first; line <= last; line++) {
    const part = (sides(line, length) * (own[line] ?? 0) * weight((line * rateHz) / length)) / length;
    power += part;
    squares += part * part;
  }
  return { power, squares };
}

/** Lines stand for their mirror image as well, but the one at half the sampling rate is its own. */
const sides = (line: number, length: number) => (2 * line === length ? 1 : 2);
