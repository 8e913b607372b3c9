import { describe, expect, it } from 'vitest';
import { aWeight, itu468Weight } from '../../src/signal/index.ts';
import { checkList } from './checks.ts';

const decibels = (power: number) => 10 * Math.log10(power);
const exponents = checkList('noise', 'thirds-n');
const exactHz = exponents.map((n) => 1000 * 10 ** (n / 10));

describe('A weighting', () => {
  it('rounds to every tenth of a decibel of the published table, at exact frequencies', () => {
    const table = checkList('noise', 'a-weighting-tenths-db');
    expect(table).toHaveLength(34);
    exactHz.forEach((hertz, i) => {
      // The table prints tenths; the last of them is met exactly.
      expect(Number(decibels(aWeight(hertz)).toFixed(1))).toBeCloseTo(table[i] ?? Number.NaN, 9);
    });
  });

  it('meets the analytic form of IEC 61672-1 (from memory) computed at forty digits', () => {
    const computed = checkList('noise', 'a-weighting-db');
    exactHz.forEach((hertz, i) => {
      // Six decimals are given.
      expect(Math.abs(decibels(aWeight(hertz)) - (computed[i] ?? Number.NaN))).toBeLessThan(1e-6);
    });
  });
});

describe('weighting of ITU-R BS.468', () => {
  const [hertz, table] = [checkList('noise', 'itu468-hz'), checkList('noise', 'itu468-db')];

  it('is the table at its own frequencies', () => {
    hertz.forEach((place, i) => {
      // The logarithm and its inverse.
      expect(decibels(itu468Weight(place))).toBeCloseTo(table[i] ?? Number.NaN, 9);
    });
  });

  it('stays near the rational form that is commonly fitted to the table', () => {
    // Coefficients from memory. The form is within 0.09 dB of the table at its rows, and so is a smooth curve between
    // them; straight lines would miss it by 0.6 dB at 11 kHz.
    for (let place = 31.5; place < 20_000; place *= 1.02) {
      expect(Math.abs(decibels(itu468Weight(place)) - rationalForm(place))).toBeLessThan(0.12);
    }
  });

  it('falls by 6 dB an octave below the table and passes nothing above it', () => {
    // 20 lg 2 is 6.0206 dB.
    expect(decibels(itu468Weight(31.5) / itu468Weight(15.75))).toBeCloseTo(6.0206, 4);
    expect(itu468Weight(32_000)).toBe(0);
    expect(itu468Weight(0)).toBe(0);
  });
});

function rationalForm(f: number): number {
  const h1 =
    -4.737338981378384e-24 * f ** 6 + 2.043828333606125e-15 * f ** 4 - 1.363894795463638e-7 * f ** 2 + 1;
  const h2 = 1.306612257412824e-19 * f ** 5 - 2.118150887518656e-11 * f ** 3 + 5.559488023498642e-4 * f;
  return 18.246 + 20 * Math.log10((1.246332637532143e-4 * f) / Math.hypot(h1, h2));
}
