import { describe, expect, it } from 'vitest';
import { combinedUncertainty, repeatStatistics } from '../../src/signal/index.ts';
import { medianOf } from '../../src/signal/statistics/median.ts';
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
  { name: 'Lottery', values: csvColumn('nist-lottery.csv', 0), digits: 12 },
  // Here the sum of neighbour products is 0.4 % of the sum of squares, and loses three of its digits to rounding.
  // The data set, as GSL prints it, has a 3 in place of the 957th digit of π, an 8; its values are certified with that.
  { name: 'PiDigits', values: digitsOfPi(5000).with(956, 3), digits: 11 },
];

/** The first digits of π, the 3 among them: Machin's formula in whole numbers, with ten digits to spare. */
function digitsOfPi(count: number): Float64Array {
  const one = 10n ** BigInt(count + 10);
  const arctanOfOneOver = (x: bigint): bigint => {
    let [term, sum] = [one / x, one / x];
    for (let n = 3n; term !== 0n; n += 2n) {
      term = -term / (x * x);
      sum += term / n;
    }
    return sum;
  };
  const pi = 4n * (4n * arctanOfOneOver(5n) - arctanOfOneOver(239n));
  return Float64Array.from(String(pi).slice(0, count), Number);
}

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

describe('the statistics of the heat flow meter, ZARR13.DAT of the NIST/SEMATECH e-Handbook', () => {
  const values = csvColumn('nist-zarr13.csv', 0);
  const found = repeatStatistics(values);

  it('are those that 1.4.2.8 prints, to the digits printed', () => {
    expect(found?.count).toBe(195);
    // Printed from single precision: good to two units of the last digit, as exact sums of the readings show. The
    // median is one of the readings.
    expect(Math.abs((found?.mean ?? 0) - check('nist-strd', 'ZARR13: mean'))).toBeLessThan(2e-6);
    const deviation = found?.standardDeviation ?? 0;
    expect(Math.abs(deviation - check('nist-strd', 'ZARR13: standard deviation'))).toBeLessThan(2e-8);
    const lag1 = found?.lag1Autocorrelation ?? 0;
    expect(Math.abs(lag1 - check('nist-strd', 'ZARR13: lag-1 autocorrelation'))).toBeLessThan(2e-6);
    expect(medianOf(values)).toBe(check('nist-strd', 'ZARR13: median'));
  });

  it('give the 95 % interval of the mean by Student’s t', () => {
    const [low = 0, high = 0] = checkList('nist-strd', 'ZARR13: 95 % interval of the mean');
    const standard = (found?.standardDeviation ?? 0) / Math.sqrt(195);
    const { half95 } = combinedUncertainty([{ standard, freedom: 194 }]);
    // The limits stand about the printed mean, which is 0.8 of its last digit too low.
    expect(Math.abs((found?.mean ?? 0) - half95 - low)).toBeLessThan(1e-6);
    expect(Math.abs((found?.mean ?? 0) + half95 - high)).toBeLessThan(1e-6);
    // Their distance does not depend on it: the series for Student's t is good to nine digits at 194 degrees, the
    // printed standard deviation to six.
    expect(Math.abs(2 * half95 - (high - low))).toBeLessThan(1e-8);
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
