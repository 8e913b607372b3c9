import { remembered } from '../fit/remembered.ts';
import { aWeight, itu468Weight } from './weightings.ts';

/** A weighting of noise: the part of the power that is kept at a frequency, and at each line of a record. */
export interface NoiseWeight {
  at: (frequencyHz: number) => number;
  /** For the lines 0 … rows/2 of a record of so many rows. */
  ofLines: (rows: number, rateHz: number) => Float64Array;
}

/** The same lines serve every channel of a record and every record of the same length. */
function keptFor(at: (frequencyHz: number) => number): NoiseWeight {
  const ofLines = remembered(
    (rows: number, rateHz: number) =>
      Float64Array.from({ length: (rows >> 1) + 1 }, (_, line) => at((line * rateHz) / rows)),
    2,
  );
  return { at, ofLines };
}

export const noiseWeights = {
  aWeighted: keptFor(aWeight),
  itu468: keptFor(itu468Weight),
};
