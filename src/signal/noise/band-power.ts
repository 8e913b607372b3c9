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

/**
 * Mean square of a residual within a band: the sum over the record's lines from one edge to the other, the edges
 * included, so that a line at 20 kHz belongs to the band up to 20 kHz. `weights` holds the part that each line keeps.
 * @source Parseval's theorem for the discrete Fourier transform.
 */
export function bandPower(
  { own, ownStep, length }: ResidualSpectrum,
  rateHz: number,
  [low, high]: readonly [number, number],
  weights?: Float64Array,
): BandPower {
  const first = Math.max(1, Math.ceil((low * length) / rateHz - rounding));
  const last = Math.min(length >> 1, Math.floor((high * length) / rateHz + rounding));
  let power = 0;
  let squares = 0;
  for (let line = first; line <= last; line++) {
    // Lines stand for their mirror image as well, but the one at half the sampling rate is its own.
    const sides = 2 * line === length ? 1 : 2;
    const part = sides * (own[ownStep * line] ?? 0) * (weights === undefined ? 1 : (weights[line] ?? 0));
    power += part;
    squares += part * part;
  }
  return { power: power / length, squares: squares / (length * length) };
}
