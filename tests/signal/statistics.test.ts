import { describe, expect, it } from 'vitest';
import { repeatStatistics } from '../../src/signal/index.ts';
import { medianOf } from '../../src/signal/statistics.ts';
import { check, csvColumn } from './checks.ts';

/** The alternating sets of the NIST Statistical Reference Datasets: one middle value, then 1000 around it. */
function alternating(middle: number, low: number, high: number): Float64Array {
  return Float64Array.from({ length: 1001 }, (_, i) => (i === 0 ? middle : i % 2 === 1 ? low : high));
}

const sets = [
  { name: 'NumAcc1', values: Float64Array.of(10000001, 10000003, 10000002), digits: 14 },
  { name: 'NumAcc2', values: alternating(1.2, 1.1, 1.3), digits: 13 },
  // The decimals of these two are not exact in binary: GSL allows 1e-9 and 1e-7 as well.
  { name: 'NumAcc3', values: alternating(1000000.2, 1000000.1, 1000000.3), digits: 9 },
  { name: 'NumAcc4', values: alternating(10000000.2, 10000000.1, 10000000.3), digits: 7 },
  { name: 'Michelso', values: csvColumn('nist-michelso.csv', 0), digits: 12 },
  { name: 'Lew', values: csvColumn('nist-lew.csv', 0), digits: 12 },
  { name: 'Mavro', values: csvColumn('nist-mavro.csv', 0), digits: 11 },
];

/** Relative agreement to so many digits. */
function agrees(found: number | null | undefined, certified: number, digits: number): void {
  expect(Math.abs((found ?? 0) / certified - 1)).toBeLessThan(10 ** -digits);
}

describe.each(sets)('repeatStatistics on NIST StRD $name', ({ name, values, digits }) => {
  const found = repeatStatistics(values);

  it('gives the certified mean, standard deviation and lag-1 autocorrelation', () => {
    // Certified to 15 digits; what is lost is the binary form of the data (see above) and rounding.
    agrees(found?.mean, check('nist-strd', `${name}: mean`), 14);
    agrees(found?.standardDeviation, check('nist-strd', `${name}: standard deviation`), digits);
    agrees(found?.lag1Autocorrelation, check('nist-strd', `${name}: lag-1 autocorrelation`), digits);
  });
});

describe('repeatStatistics', () => {
  it('withholds what too few or equal readings cannot give', () => {
    expect(repeatStatistics(new Float64Array())).toBeNull();
    expect(repeatStatistics(Float64Array.of(3))).toEqual({
      count: 1,
      mean: 3,
      standardDeviation: null,
      lag1Autocorrelation: null,
    });
    expect(repeatStatistics(Float64Array.of(3, 3))).toMatchObject({
      standardDeviation: 0,
      lag1Autocorrelation: null,
    });
  });
});

describe('medianOf', () => {
  it('is the middle value, or the mean of the two in the middle, and leaves its input as it stands', () => {
    const values = Float64Array.of(5, 1, 3);
    expect(medianOf(values)).toBe(3);
    expect([...values]).toEqual([5, 1, 3]);
    expect(medianOf(Float64Array.of(4, 1, 3, 2))).toBe(2.5);
  });
});
