import { type NoisyHarmonic, thdInterval } from './thd-interval.ts';

/** One independent part of a total: its raw value and the 95 % interval of its true one. */
export interface IntervalPart extends NoisyHarmonic {
  low: number;
  high: number;
}

export interface CombinedOptions {
  parts: readonly IntervalPart[];
  /** The total of the parts' amplitudes. */
  total: (values: readonly number[]) => number;
  /** Relative standard deviation of what the parts are referred to. */
  referenceUncertainty: number;
  /** Degrees of freedom behind all parts together. */
  freedom: number;
}

/** Normal deviate with 2.5 % above it. */
const deviate = 1.959963984540054;

/**
 * 95 % interval of a total of several line amplitudes, each measured in its own noise: for sums of amplitudes and roots
 * of sums of their squares. Every part stands at its amplitude less its noise and is taken to either end of its own
 * interval, one at a time; the changes of the total add as squares. Where the root sum of squares of the parts is not told
 * from noise, the total need not be more than nothing, and its low end is 0.
 *
 * @source numerical propagation of one input at a time: JCGM 100:2008, 5.1.3 note 2, with unequal halves; coverage by
 * simulation in tests/signal/two-tone.test.ts.
 */
export function combinedInterval({ parts, total, referenceUncertainty, freedom }: CombinedOptions): {
  low: number;
  high: number;
} {
  const centres = parts.map(({ ratio, uncertainty, low, high }) =>
    Math.min(high, Math.max(low, Math.sqrt(Math.max(0, ratio ** 2 - 2 * uncertainty ** 2)))),
  );
  const centre = total(centres);
  const ofReference = centre * deviate * referenceUncertainty;
  const change = (ends: readonly number[]) =>
    Math.hypot(ofReference, ...ends.map((end, i) => total(centres.with(i, end)) - centre));
  const isNoise = thdInterval({ harmonics: parts, fundamentalUncertainty: 0, freedom }).low === 0;
  return {
    low: isNoise ? 0 : Math.max(0, centre - change(parts.map(({ low }) => low))),
    high: centre + change(parts.map(({ high }) => high)),
  };
}
