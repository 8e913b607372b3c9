import { describe, expect, test } from 'vitest';
import { batchSpread, conformityOf } from '../../src/compare/index.ts';

const band = { least: 1, most: 2 };

describe('a value and its limits', () => {
  test.each([
    ['in the middle', { value: 1.5 }, band, 'within'],
    ['on the lower bound', { value: 1 }, band, 'within'],
    ['on the upper bound', { value: 2 }, band, 'within'],
    ['below', { value: 0.999 }, band, 'outside'],
    ['above', { value: 2.001 }, band, 'outside'],
    ['with its whole interval inside', { value: 1.5, low: 1, high: 2 }, band, 'within'],
    ['with an interval over the upper bound', { value: 1.9, low: 1.8, high: 2.1 }, band, 'cannot be told'],
    ['beyond a bound that its interval reaches', { value: 2.1, low: 1.9, high: 2.3 }, band, 'cannot be told'],
    ['with an interval over both bounds', { value: 1.5, low: 0.5, high: 2.5 }, band, 'cannot be told'],
    ['with its whole interval above', { value: 2.2, low: 2.1, high: 2.3 }, band, 'outside'],
    ['with its whole interval below', { value: 0.8, low: 0.7, high: 0.9 }, band, 'outside'],
    ['with an interval that begins on the bound', { value: 2.1, low: 2, high: 2.2 }, band, 'cannot be told'],
    ['under a bound from above alone', { value: -5 }, { least: null, most: 2 }, 'within'],
    ['over a bound from below alone', { value: 5 }, { least: 1, most: null }, 'within'],
    ['that does not exist', { value: null }, band, 'not read'],
  ] as const)('%s', (_title, value, bounds, verdict) => {
    expect(conformityOf(value, bounds)).toBe(verdict);
  });
});

describe('the spread over a batch', () => {
  test('has mean, deviation of one unit, lowest and highest', () => {
    // By hand: the mean is 40/8, and the squares about it are 9+1+1+1+0+0+4+16 = 32.
    const spread = batchSpread([2, 4, 4, 4, 5, 5, 7, 9]);
    expect(spread).toMatchObject({ count: 8, mean: 5, lowest: 2, highest: 9 });
    // √(32/7); double precision leaves less than 1e-15.
    expect(Math.abs((spread?.standardDeviation ?? 0) - Math.sqrt(32 / 7))).toBeLessThan(1e-14);
  });

  test('of one unit has no deviation, of none nothing', () => {
    expect(batchSpread([3])).toEqual({ count: 1, mean: 3, standardDeviation: null, lowest: 3, highest: 3 });
    expect(batchSpread([])).toBeNull();
  });
});
