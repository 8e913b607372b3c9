import type { Figure } from '../figures/index.ts';

/** Bounds that a value must keep, both ends included; null where there is none. */
export interface Bounds {
  least: number | null;
  most: number | null;
}

/** What a value says about the bounds stated for it. */
export type Conformity = 'within' | 'outside' | 'cannot be told' | 'not read';

/**
 * Holds a value against its bounds. One with a 95 % interval is within only where the whole interval is, outside only
 * where all of it lies beyond a bound, and cannot be told in between. One without an interval counts as exact.
 *
 * @source JCGM 106:2012, 8.3.2 and 8.3.3 (guarded acceptance and rejection) and, for readings without an interval, 8.2
 * (simple acceptance); from memory.
 */
export function conformityOf(
  { value, low, high }: Pick<Figure, 'value' | 'low' | 'high'>,
  { least, most }: Bounds,
): Conformity {
  if (value === null) return 'not read';
  const [from, to] = [low ?? value, high ?? value];
  const atLeast = least ?? Number.NEGATIVE_INFINITY;
  const atMost = most ?? Number.POSITIVE_INFINITY;
  if (from >= atLeast && to <= atMost) return 'within';
  return to < atLeast || from > atMost ? 'outside' : 'cannot be told';
}
