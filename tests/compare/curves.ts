import type { CurvePair, ReadCurve } from '../../src/compare/index.ts';

const provenance = { file: 'a.csv', sha256: null, lines: null, method: 'between-points', settings: {} };

/** Places with the same ratio between neighbours. */
export function places(from: number, to: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => from * (to / from) ** (i / (count - 1)));
}

/** A curve through these ratios; the instrument may be off by `bound` everywhere. */
export function curve(axis: readonly number[], values: readonly number[], id = 'thd', bound = 0): ReadCurve {
  return {
    axis: Float64Array.from(axis),
    values: Float64Array.from(values),
    bound: Float64Array.from(axis, () => bound),
    figure: { id, unit: '1', conditions: {}, provenance },
  };
}

/** Two curves over frequency at one watt. */
export const overFrequency = (first: ReadCurve, second: ReadCurve): CurvePair => ({
  ...{ along: 'frequency', held: 'at 1.00 W', first, second },
});

/** Normal deviates from a fixed seed: Box and Muller’s transform of a linear congruential generator. */
export function normalDeviates(seed: number): () => number {
  let state = (seed * 2_654_435_761 + 12_345) % 2_147_483_647 || 1;
  const uniform = () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  for (let i = 0; i < 10; i++) uniform();
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}
