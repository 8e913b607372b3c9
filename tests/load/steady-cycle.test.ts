import { describe, expect, test } from 'vitest';
import { rootNear } from '../../src/load/root-near.ts';
import { type Means, steadyCycle } from '../../src/load/steady-means.ts';

const both = { coupled: [true, true], scale: 1 };
const settle = (means: (trial: Means) => Means, options = both) =>
  steadyCycle((trial) => ({ cycle: trial, means: means(trial) }), [1, 1], options);

describe('the steady cycle', () => {
  test('of linear influences is the solution of the equations', () => {
    // x = 3 − 2y, y = 1 − 5x: x = −1/9, y = 14/9 by elimination; fixed-point steps would run away.
    const found = settle(([x = 0, y = 0]) => [3 - 2 * y, 1 - 5 * x]);
    expect(found?.[0]).toBeCloseTo(-1 / 9, 8); // settled to a billionth
    expect(found?.[1]).toBeCloseTo(14 / 9, 8);
  });

  test('of a strongly curved influence is found too', () => {
    // x = e^(−x) has the root 0.5671432904 (omega constant).
    const found = settle(([x = 0]) => [Math.exp(-x), 0], { coupled: [true, false], scale: 1 });
    expect(found?.[0]).toBeCloseTo(0.5671432904, 8);
  });

  test('does not exist where nothing agrees', () => {
    expect(settle(([x = 0]) => [x + 1, 0], { coupled: [true, false], scale: 1 })).toBeNull();
    expect(settle(() => [Number.NaN, Number.NaN])).toBeNull();
  });
});

describe('a root near a guess', () => {
  test('is found from a good guess, a bad one and one outside of reach', () => {
    const bracket = { low: -10, high: 10 };
    for (const guess of [1.4, -9.9, 9.9, 0]) {
      expect(rootNear((x) => x ** 3 - 2, guess, bracket)).toBeCloseTo(Math.cbrt(2), 9); // 1e-13 of the width
    }
  });

  test('is none where the ends have one sign', () => {
    expect(rootNear((x) => x * x + 1, 0.5, { low: -1, high: 1 })).toBeNull();
  });
});
