import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { findRoot, firstNegative } from '../../src/load/solving/solve.ts';

describe('findRoot', () => {
  test.each([
    { name: 'a straight line', f: (x: number) => 3 - x, root: 3 },
    { name: 'a cubic', f: (x: number) => x ** 3 - 2, root: 2 ** (1 / 3) },
    { name: 'a root of high order', f: (x: number) => (x - 1) ** 9, root: 1 },
    {
      name: 'a curve that is flat on one side',
      f: (x: number) => Math.exp(-40 * x) - 1e-3,
      root: Math.log(1e3) / 40,
    },
    { name: 'a step', f: (x: number) => (x < 0.3 ? -1 : 1), root: 0.3 },
  ])('finds the root of $name', ({ f, root }) => {
    // A root of ninth order is only defined to about eps^(1/9) of its value.
    expect(Math.abs((findRoot(f, { low: 0, high: 10 }) ?? Number.NaN) - root)).toBeLessThan(
      f(1) === 0 ? 0.02 : 1e-11,
    );
  });

  test('takes an end that is a root, and has no answer without a change of sign or without a number', () => {
    expect(findRoot((x) => x, { low: 0, high: 5 })).toBe(0);
    expect(findRoot((x) => x - 5, { low: 0, high: 5 })).toBe(5);
    expect(findRoot((x) => x + 1, { low: 0, high: 5 })).toBeNull();
    expect(findRoot(() => Number.NaN, { low: 0, high: 5 })).toBeNull();
  });

  test('sees a change of sign also between values too small to multiply', () => {
    expect(findRoot((x) => 1e-200 * (x - 2), { low: 0, high: 5 })).toBeCloseTo(2, 11);
  });

  test('needs fewer than 120 evaluations for any monotone curve', () => {
    const power = fc.double({ min: 0.1, max: 12, noNaN: true });
    const place = fc.double({ min: 0.01, max: 0.99, noNaN: true });
    fc.assert(
      fc.property(power, place, (exponent, root) => {
        let evaluations = 0;
        const f = (x: number) => {
          evaluations++;
          return Math.sign(x - root) * Math.abs(x - root) ** exponent;
        };
        findRoot(f, { low: 0, high: 1 });
        expect(evaluations).toBeLessThan(120); // plain bisection would need about 50
      }),
    );
  });
});

test('firstNegative doubles its start, and gives up where the function stays positive', () => {
  expect(firstNegative((x) => 10 - x, 1)).toBe(16);
  expect(firstNegative(() => 1, 1)).toBeNull();
  expect(firstNegative(() => Number.NaN, 1)).toBeNull();
});
