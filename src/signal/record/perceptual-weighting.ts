import { thdInterval } from '../statistics/thd-interval.ts';
import type { Harmonic, Interval } from '../types.ts';
import type { NoiseFloor } from './harmonic-figures.ts';

/** Root sums of squares of weighted harmonics over the fundamental: contested measures of what is heard. */
export interface WeightedDistortion {
  rma1937: Interval;
  shorter1950: Interval;
}

/**
 * Weight of the nth harmonic's amplitude: n/2.
 * @source Radio Manufacturers' Association, Specification for Testing and Expressing Overall Performance of Radio
 * Broadcast Receivers (1937), from memory.
 */
export const rmaWeight = (order: number) => order / 2;

/**
 * Weight of the nth harmonic's amplitude: n²/4.
 * @source D. E. L. Shorter, Electronic Engineering 22:152 (April 1950), as quoted elsewhere; bibliography from memory.
 */
export const shorterWeight = (order: number) => order ** 2 / 4;

/** Both weighted sums, with the interval that THD has; null where no harmonic is counted. */
export function weightedDistortion(
  harmonics: readonly Harmonic[],
  floor: Pick<NoiseFloor, 'lines' | 'freedom'>,
): WeightedDistortion | null {
  if (harmonics.length === 0) return null;
  return {
    rma1937: weightedSum(harmonics, rmaWeight, floor),
    shorter1950: weightedSum(harmonics, shorterWeight, floor),
  };
}

function weightedSum(
  harmonics: readonly Pick<Harmonic, 'order' | 'ratio'>[],
  weight: (order: number) => number,
  { lines, freedom }: Pick<NoiseFloor, 'lines' | 'freedom'>,
): Interval {
  const weighted = harmonics.map(({ order, ratio }) => {
    const { relative = 0, sure = 0, freedom: own = 1 } = lines[order - 1] ?? {};
    const times = weight(order);
    return { ratio: times * ratio, uncertainty: times * relative, sure: times * sure, freedom: own };
  });
  return {
    ratio: Math.hypot(...weighted.map(({ ratio }) => ratio)),
    ...thdInterval({ harmonics: weighted, fundamentalUncertainty: lines[0]?.relative ?? 0, freedom }),
  };
}
