import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { combinationName, highestOrder, placeCombinations } from '../../src/signal/two-tone/combinations.ts';

describe('combinationName(combination)', () => {
  it.each([
    [{ first: -1, second: 1 }, 'f2 − f1'],
    [{ first: 2, second: -1 }, '2f1 − f2'],
    [{ first: 2, second: 1 }, 'f2 + 2f1'],
    [{ first: 3, second: 0 }, '3f1'],
    [{ first: 0, second: 1 }, 'f2'],
  ])('%o is %s', (combination, name) => {
    expect(combinationName(combination)).toBe(name);
  });
});

describe('placeCombinations(tones, rows)', () => {
  const rows = 8192;
  const pairs = fc.tuple(
    fc.double({ min: 3, max: 1500, noNaN: true }),
    fc.double({ min: 1.01, max: 30, noNaN: true }),
  );

  it('keeps every line a cycle per record from all others, from zero and from half the rate', () => {
    fc.assert(
      fc.property(pairs, ([lower, times]) => {
        const places = placeCombinations([lower, lower * times], rows).own.map(({ cycles }) => cycles);
        const sorted = [0, ...places.toSorted((a, b) => a - b), rows / 2];
        for (const [i, place] of sorted.entries()) {
          if (i > 0) expect(place - (sorted[i - 1] ?? 0)).toBeGreaterThanOrEqual(1);
        }
      }),
    );
  });

  it('gives each combination once, at a positive frequency that is its own sum', () => {
    fc.assert(
      fc.property(pairs, ([lower, times]) => {
        const upper = lower * times;
        const { own, lost } = placeCombinations([lower, upper], rows);
        const all = [...own, ...lost];
        // Two of order 1; from order n on 2n: 2 + 4 + 6 + 8 + 10.
        expect(all).toHaveLength(highestOrder * (highestOrder + 1));
        expect(new Set(all.map(combinationName)).size).toBe(all.length);
        for (const { first, second, cycles, order } of all) {
          expect(Math.abs(first * lower + second * upper - cycles)).toBeLessThan(1e-9 * rows);
          expect(cycles).toBeGreaterThanOrEqual(0);
          expect(order).toBe(Math.abs(first) + Math.abs(second));
        }
      }),
    );
  });

  it('gives a shared place to the lower order, and names it', () => {
    const { lost } = placeCombinations([100, 200], rows);
    expect(lost.find((line) => combinationName(line) === 'f2 − f1')?.onto).toMatchObject({
      first: 1,
      second: 0,
    });
  });
});
