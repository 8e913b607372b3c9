import { thdInterval } from '../statistics/thd-interval.ts';
import type { Harmonic, Interval } from '../types.ts';
import type { NoiseFloor } from './harmonic-figures.ts';

/** Root sum of squares of some harmonics over the fundamental, with the 95 % interval of its true value. */
export interface HarmonicSum extends Interval {
  orders: number[];
}

/**
 * The sum of the even or of the odd harmonics, with the interval that THD has. Null where none of them is counted.
 */
export function harmonicSum(
  harmonics: readonly Harmonic[],
  parity: 'even' | 'odd',
  { lines, freedom }: Pick<NoiseFloor, 'lines' | 'freedom'>,
): HarmonicSum | null {
  const counted = harmonics.filter(({ order }) => (order % 2 === 0) === (parity === 'even'));
  if (counted.length === 0) return null;
  const noisy = counted.map(({ ratio, uncertainty, order }) => ({
    ...{ ratio, uncertainty },
    freedom: lines[order - 1]?.freedom ?? 1,
  }));
  const behind = noisy.reduce((sum, line) => sum + line.freedom, 0);
  const interval = thdInterval({
    harmonics: noisy,
    fundamentalUncertainty: lines[0]?.relative ?? 0,
    freedom: Math.min(freedom, behind),
  });
  return {
    ratio: Math.hypot(...counted.map(({ ratio }) => ratio)),
    ...interval,
    orders: counted.map(({ order }) => order),
  };
}
