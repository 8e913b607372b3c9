import { describe, expect, it } from 'vitest';
import { repeatStatistics } from '../../src/signal/index.ts';
import { medianOf } from '../../src/signal/median.ts';
import { check, checkList, csvColumn } from './checks.ts';

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

/** Mean, standard deviation, and standard deviation of the mean. */
function ofRepeats(readings: readonly number[]) {
  const { count = 1, mean, standardDeviation } = repeatStatistics(Float64Array.from(readings)) ?? {};
  return { mean, standardDeviation, ofMean: (standardDeviation ?? Number.NaN) / Math.sqrt(count) };
}

describe('repeatStatistics on the examples of the GUM (JCGM 100:2008)', () => {
  it('gives mean and standard deviations of the twenty temperatures of 4.4.3 (data from memory)', () => {
    const found = ofRepeats(checkList('repeats', 'GUM 4.4.3: temperatures'));
    // Readings of two decimals about 100: fourteen digits of the mean, twelve of the spread.
    agrees(found.mean, check('repeats', 'GUM 4.4.3: mean'), 14);
    agrees(found.standardDeviation, check('repeats', 'GUM 4.4.3: standard deviation'), 12);
    agrees(found.ofMean, check('repeats', 'GUM 4.4.3: standard deviation of the mean'), 12);
  });

  it('gives the means of table H.2 and their standard deviations', () => {
    const quantities = ['voltages in V', 'currents in mA', 'phases in rad'];
    const means = checkList('repeats', 'GUM H.2: means');
    const deviations = checkList('repeats', 'GUM H.2: standard deviations of the means');
    quantities.forEach((quantity, i) => {
      const found = ofRepeats(checkList('repeats', `GUM H.2: ${quantity}`));
      agrees(found.mean, means[i] ?? Number.NaN, 13);
      // Eight digits are given.
      agrees(found.ofMean, deviations[i] ?? Number.NaN, 7);
    });
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
