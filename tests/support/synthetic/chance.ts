import { uniformSource } from '../../../src/demo/random.ts';

/** Seeded numbers of one thing in a synthetic journal. */
export interface Chance {
  /** Between two ends, each value as likely as another. */
  between: (low: number, high: number) => number;
  /** Of a list. */
  one: <Item>(items: readonly [Item, ...Item[]]) => Item;
  /** About 0 with standard deviation 1, and never beyond 3: the sum of a few uniform numbers. */
  noise: () => number;
}

/** The numbers of the thing with this ordinal; neighbouring ordinals and seeds have nothing in common. */
export function chanceOf(seed: number, ordinal: number): Chance {
  const uniform = uniformSource((seed + 1) * 7_368_787 + (ordinal + 1) * 15_485_863);
  uniform();
  return {
    between: (low, high) => low + (high - low) * uniform(),
    one: (items) => items[Math.floor(uniform() * items.length)] ?? items[0],
    noise: () => 2 * (uniform() + uniform() + uniform() - 1.5),
  };
}
