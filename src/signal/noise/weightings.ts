import { smoothAt } from '../fit/smooth-curve.ts';

/** Poles of the A weighting, hertz, and its gain at 1 kHz, dB. */
const [f1, f2, f3, f4] = [20.598997057618316, 107.65264864304629, 737.8622307362901, 12194.217147998012];
const gainA = -1.999655535667262;

/**
 * A weighting as a ratio of powers, 1 at 1 kHz.
 * @source IEC 61672-1, Annex E, analytic form; poles computed from its construction, which is from memory.
 */
export function aWeight(frequencyHz: number): number {
  const square = frequencyHz * frequencyHz;
  const ratio =
    (f4 ** 2 * square ** 2) /
    ((square + f1 ** 2) * Math.sqrt((square + f2 ** 2) * (square + f3 ** 2)) * (square + f4 ** 2));
  return ratio ** 2 / 10 ** (gainA / 10);
}

/**
 * Response in dB re 1 kHz.
 * @source Recommendation ITU-R BS.468-4, table 1, as quoted in public files; the Recommendation itself was not seen.
 */
const itu468: readonly [hertz: number, decibels: number][] = [
  [31.5, -29.9],
  [63, -23.9],
  [100, -19.8],
  [200, -13.8],
  [400, -7.8],
  [800, -1.9],
  [1000, 0],
  [2000, 5.6],
  [3150, 9],
  [4000, 10.5],
  [5000, 11.7],
  [6300, 12.2],
  [7100, 12],
  [8000, 11.4],
  [9000, 10.1],
  [10_000, 8.1],
  [12_500, 0],
  [14_000, -5.3],
  [16_000, -11.7],
  [20_000, -22.2],
  [31_500, -42.7],
];

const curve = {
  axis: itu468.map(([hertz]) => Math.log(hertz)),
  values: itu468.map(([, decibels]) => decibels),
};

/**
 * Weighting of ITU-R BS.468 as a ratio of powers: a smooth curve of cubics in decibels over the logarithm of frequency through
 * the rows of its table. Below 31.5 Hz the first row's fall of 6 dB an octave goes on, above 31.5 kHz nothing passes.
 */
export function itu468Weight(frequencyHz: number): number {
  const [[lowest, atLowest] = [31.5, -29.9]] = itu468;
  const decibels =
    frequencyHz < lowest
      ? atLowest + 20 * Math.log10(frequencyHz / lowest)
      : smoothAt(curve, Math.log(frequencyHz));
  return decibels === null ? 0 : 10 ** (decibels / 10);
}
