import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { clopperPearsonInterval, type ShareInterval, wilsonInterval } from '../../src/listening/intervals.ts';
import { checkList } from '../signal/checks.ts';

const list = (id: string) => checkList('listening', id);
const examples = list('examples of intervals: successes').map((successes, i) => ({
  successes,
  trials: list('examples of intervals: trials')[i] ?? 0,
}));

function expectBounds(intervals: readonly ShareInterval[], id: string, tolerance: number) {
  const bounds = intervals.flatMap(({ low, high }) => [low, high]);
  const expected = list(id);
  expect(bounds).toHaveLength(expected.length);
  bounds.forEach((bound, i) => void expect(Math.abs(bound - (expected[i] ?? 0))).toBeLessThan(tolerance));
}

describe('wilsonInterval', () => {
  test('gives the examples of Newcombe 1998, table I (printed digits from memory)', () => {
    // Four decimals are printed.
    expectBounds(examples.map(wilsonInterval), 'examples of intervals: Wilson, printed', 0.5001e-4);
  });

  test('gives them to the digits that were computed', () => {
    // Twelve decimals are kept.
    expectBounds(examples.map(wilsonInterval), 'examples of intervals: Wilson', 1e-12);
    const few = [
      { successes: 12, trials: 16 },
      { successes: 9, trials: 10 },
      { successes: 5, trials: 5 },
    ];
    expectBounds(few.map(wilsonInterval), '12/16, 9/10, 5/5: Wilson', 1e-12);
  });
});

describe('clopperPearsonInterval', () => {
  test('gives the same examples to the digits that were computed', () => {
    // Twelve decimals are kept; the bisection ends at 2⁻⁶⁰.
    expectBounds(examples.map(clopperPearsonInterval), 'examples of intervals: Clopper and Pearson', 1e-12);
    const few = [
      { successes: 12, trials: 16 },
      { successes: 5, trials: 5 },
    ];
    expectBounds(few.map(clopperPearsonInterval), '12/16, 5/5: Clopper and Pearson', 1e-12);
  });
});

test('both intervals hold the share itself, stay within 0 and 1, and turn over with right and wrong', () => {
  const counts = fc
    .integer({ min: 1, max: 2000 })
    .chain((trials) => fc.tuple(fc.nat(trials), fc.constant(trials)));
  fc.assert(
    fc.property(counts, ([successes, trials]) => {
      for (const interval of [wilsonInterval, clopperPearsonInterval]) {
        const { low, high } = interval({ successes, trials });
        const other = interval({ successes: trials - successes, trials });
        expect(low).toBeGreaterThanOrEqual(0);
        expect(high).toBeLessThanOrEqual(1);
        expect(low).toBeLessThanOrEqual(successes / trials);
        expect(high).toBeGreaterThanOrEqual(successes / trials);
        // Rounding of the sums of up to 2000 terms.
        expect(Math.abs(1 - other.high - low)).toBeLessThan(1e-9);
      }
    }),
    { numRuns: 200, seed: 5 },
  );
});
