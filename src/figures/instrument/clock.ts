import type { Figure } from '../types.ts';
import type { Instrument } from './instrument.ts';

/** True for a frequency that was measured in samples: one that has an interval. Places in a sweep have none. */
export const isTimed = ({ unit, low }: Pick<Figure, 'unit' | 'low'>): boolean =>
  unit === 'Hz' && low !== undefined;

/** What the interval of a frequency lacks where nothing is stated about the clock. */
const withoutClock = 'without the recorder’s clock';

/** A figure, with the remark that its recorder's clock is not in its interval where that is so. */
export function sayingClock(figure: Figure, instrument: Instrument | null): Figure {
  if (!isTimed(figure) || instrument?.clockAccuracy !== undefined) return figure;
  const { remark } = figure;
  return { ...figure, remark: remark === undefined ? withoutClock : `${remark}, ${withoutClock}` };
}
