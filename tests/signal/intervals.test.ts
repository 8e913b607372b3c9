import { describe, expect, it } from 'vitest';
import { powerThreshold, rateOfEach } from '../../src/signal/record/detection.ts';
import { thdInterval } from '../../src/signal/statistics/thd-interval.ts';
import { check } from './checks.ts';

/** Nine harmonics in noise of unit variance whose squares sum to a value. */
function nineHarmonics(square: number) {
  const harmonics = Array.from({ length: 9 }, () => ({ ratio: Math.sqrt(square / 9), uncertainty: 1 }));
  return thdInterval({ harmonics, fundamentalUncertainty: 0, freedom: 1e12 });
}

describe('thdInterval', () => {
  it.each([5, 18, 32, 60, 200, 2000])(
    'is the noncentral chi-square interval for a sum of squares of %i',
    (square) => {
      const { low, high } = nineHarmonics(square);
      // Three cumulants and the cube-root approximation: within 0.02 standard deviations of the exact inversion by scipy.
      expect(Math.abs(low - check('intervals', `sum of squares ${square}: low`))).toBeLessThan(0.02);
      expect(Math.abs(high - check('intervals', `sum of squares ${square}: high`))).toBeLessThan(0.02);
    },
  );

  it('has a low end of exactly 0 on noise alone, and may then exclude the raw ratio', () => {
    const { low, high } = nineHarmonics(18);
    expect(low).toBe(0);
    expect(high).toBeLessThan(Math.sqrt(18));
  });

  it('promises no less distortion when noise happens to be small', () => {
    expect(nineHarmonics(1).high).toBe(nineHarmonics(10).high);
  });

  it('is the value itself where there is no noise', () => {
    const harmonics = [
      { ratio: 0.03, uncertainty: 0 },
      { ratio: 0.04, uncertainty: 0 },
    ];
    const { low, high } = thdInterval({ harmonics, fundamentalUncertainty: 0, freedom: 10 });
    // Eighty halvings: rounding only.
    expect(low).toBeCloseTo(0.05, 14);
    expect(high).toBeCloseTo(0.05, 14);
  });

  it('is the normal interval of one strong harmonic', () => {
    const harmonics = [{ ratio: 0.1, uncertainty: 0.001 }];
    const { low, high } = thdInterval({ harmonics, fundamentalUncertainty: 0, freedom: 1e12 });
    // ± 1.96 standard deviations; the noise in the other component shifts the middle by u²/(2·0.1) = 5e-6.
    expect(low).toBeCloseTo(0.1 - 0.00196 - 0.000005, 6);
    expect(high).toBeCloseTo(0.1 + 0.00196 - 0.000005, 6);
  });

  it('widens with the uncertainty of the fundamental', () => {
    const harmonics = [{ ratio: 0.4, uncertainty: 0.001 }];
    const { low, high } = thdInterval({ harmonics, fundamentalUncertainty: 0.01, freedom: 1e12 });
    // 0.4 ± 1.96·√(0.001² + 0.004²), to the 2 % by which ± 2 % of the divisor are lopsided.
    const half = 1.96 * Math.hypot(0.001, 0.004);
    expect(Math.abs(0.4 - half - low)).toBeLessThan(0.03 * half);
    expect(Math.abs(0.4 + half - high)).toBeLessThan(0.03 * half);
  });
});

describe('powerThreshold', () => {
  it.each([
    ['F with 2 and 10: 0.05 tail', 0.05, 10],
    ['F with 2 and 32: 0.001 tail', 0.001, 32],
    ['F with 2 and 24: 1e-06 tail', 1e-6, 24],
  ] as const)('is the tail of Fisher’s F: %s', (id, falseAlarm, freedom) => {
    // A closed form against scipy: double precision.
    expect(powerThreshold(falseAlarm, freedom) / check('intervals', id)).toBeCloseTo(1, 11);
  });

  it('tends to −ln of the rate for noise that is known', () => {
    expect(powerThreshold(0.01, 1e9)).toBeCloseTo(-Math.log(0.01), 6);
  });
});

describe('rateOfEach', () => {
  it('makes the overall rate when all tests are taken together', () => {
    expect(1 - (1 - rateOfEach(0.05, 9)) ** 9).toBeCloseTo(0.05, 14);
    expect(rateOfEach(0.05, 1)).toBeCloseTo(0.05, 15);
  });
});
