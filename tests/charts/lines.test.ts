import { describe, expect, it } from 'vitest';
import { compareLines, comparisonTitle } from '../../src/charts/comparison.ts';
import { crossings, valueAt } from '../../src/charts/crossings.ts';
import { flatBand, levelCentre } from '../../src/charts/flatness.ts';
import { reigns } from '../../src/charts/largest.ts';
import { sortReadings } from '../../src/charts/readings.ts';
import { evenly } from '../../src/charts/table.ts';
import { decades } from './samples.ts';

const logLog = { logX: true, logY: true };
const logX = { logX: true, logY: false };

describe('sortReadings(x, y, kinds)', () => {
  it('cuts at gaps and at zeros, and counts each by its reason', () => {
    const sorted = sortReadings([1, 2, 3, 4, 5, 6], [1, 0, 2, 3, null, 4], { x: 'log', y: 'log' });
    expect(sorted.runs).toEqual([
      { x: [1], y: [1] },
      { x: [3, 4], y: [2, 3] },
      { x: [6], y: [4] },
    ]);
    expect(sorted).toMatchObject({ missing: 1, notPositive: 1 });
  });

  it('takes zeros and negative values on linear axes', () => {
    const sorted = sortReadings([-1, 0, 1], [0, -1, 0], { x: 'linear', y: 'linear' });
    expect(sorted).toMatchObject({ runs: [{ x: [-1, 0, 1], y: [0, -1, 0] }], missing: 0, notPositive: 0 });
  });

  it('counts a reading without a partner as missing', () => {
    expect(sortReadings([1, 2, 3], [1, 2], { x: 'log', y: 'log' })).toMatchObject({ missing: 1 });
  });
});

describe('crossings(run, level, drawn)', () => {
  // y = x on both logarithmic axes: the crossing is where the level is, to rounding.
  it('finds the place on the line as drawn on logarithmic axes', () => {
    const [found] = crossings({ x: [1, 100], y: [1, 100] }, 10, logLog);
    expect(found?.x).toBeCloseTo(10, 9);
    expect(found?.rising).toBe(true);
  });

  // A level that falls by 6 dB over a decade passes −3 dB half a decade along: 1000·√10.
  it('finds the place of a level over logarithmic frequency', () => {
    const [found] = crossings({ x: [1000, 10_000], y: [0, -6] }, -3, logX);
    expect(found?.x).toBeCloseTo(1000 * Math.sqrt(10), 6);
    expect(found?.rising).toBe(false);
  });

  it('counts a reading exactly on the level once', () => {
    expect(crossings({ x: [1, 2, 3], y: [0, 1, 2] }, 1, { logX: false, logY: false })).toHaveLength(1);
  });

  it('finds none on a line that stays on one side', () => {
    expect(crossings({ x: [1, 2, 3], y: [4, 5, 4] }, 3, logX)).toEqual([]);
  });
});

describe('valueAt(run, place, drawn)', () => {
  it('is the value of the line there, and null outside of it', () => {
    expect(valueAt({ x: [1, 100], y: [1, 100] }, 10, logLog)).toBeCloseTo(10, 9);
    expect(valueAt({ x: [1, 100], y: [1, 100] }, 101, logLog)).toBeNull();
  });
});

describe('flatBand(run, tolerance, around)', () => {
  const x = decades(400, 1, 1e6);
  const lowPass = { x, y: x.map((hz) => -10 * Math.log10(1 + (hz / 10_000) ** 2)) };

  // A first-order fall reaches −0.5 dB at fc·√(10^0.05 − 1); 400 points over 6 decades read it to 0.1 %.
  it('ends where the level leaves the tolerance', () => {
    const band = flatBand(lowPass, 0.5, 100);
    expect(band?.toHz).toBeGreaterThan(10_000 * Math.sqrt(10 ** 0.05 - 1) * 0.999);
    expect(band?.toHz).toBeLessThan(10_000 * Math.sqrt(10 ** 0.05 - 1) * 1.001);
    expect(band).toMatchObject({ fromHz: 1, openBelow: true, openAbove: false });
  });

  it('does not exist where the level at the reference is outside of the tolerance', () => {
    expect(flatBand(lowPass, 0.5, 100_000)).toBeNull();
    expect(flatBand(lowPass, 0.5, 2e6)).toBeNull();
  });

  it('takes the place nearest to 0 dB where no reference is stated', () => {
    expect(levelCentre({ x: [10, 100, 1000], y: [-3, 0.1, 2] })).toBe(100);
  });
});

describe('compareLines(one, other)', () => {
  const one = { x: [10, 100, 1000], y: [1, 1, 1] };
  const names = ['A', 'B'] as const;
  const hertz = (place: number) => `${Math.round(place)} Hz`;
  const said = (other: { x: number[]; y: number[] }) => {
    const comparison = compareLines(one, other);
    return comparison === null ? null : comparisonTitle(names, comparison, hertz);
  };

  it('says which line stays below', () => {
    expect(said({ x: [10, 1000], y: [2, 3] })).toBe('A stays below B from 10 Hz to 1000 Hz');
    expect(said({ x: [10, 1000], y: [0.5, 0.5] })).toBe('B stays below A from 10 Hz to 1000 Hz');
  });

  // B rises from 0.1 to 10 over two decades: on logarithmic axes it passes 1 in the middle, at 100 Hz.
  it('says where the lines change places', () => {
    expect(said({ x: [10, 1000], y: [0.1, 10] })).toBe('B is below A up to 100 Hz and above it beyond');
  });

  it('says so when one is below only in between, and when they cross many times', () => {
    expect(said({ x: [10, 100, 1000], y: [10, 0.1, 10] })).toBe(
      'B is below A from 32 Hz to 316 Hz and above it elsewhere',
    );
    expect(said({ x: [10, 20, 100, 500, 1000], y: [10, 0.1, 10, 0.1, 10] })).toBe(
      'A and B change places 4 times, first at 14 Hz',
    );
  });

  it('compares only where both have readings, and says nothing where they share no stretch', () => {
    expect(said({ x: [100, 5000], y: [2, 2] })).toBe('A stays below B from 100 Hz to 1000 Hz');
    expect(said({ x: [2000, 5000], y: [2, 2] })).toBeNull();
  });

  it('says when lines do not differ, and takes a touch for no crossing', () => {
    expect(said(one)).toBe('A and B do not differ');
    expect(said({ x: [10, 100, 1000], y: [2, 1, 2] })).toBe('A stays below B from 10 Hz to 1000 Hz');
  });
});

describe('reigns(frequency, orders)', () => {
  it('joins neighbouring frequencies where one order is the largest, whatever the order of reading', () => {
    const found = reigns(
      [1000, 100, 10],
      [
        { order: 2, ratio: [0.1, 0.3, 0.3] },
        { order: 3, ratio: [0.2, 0.2, null] },
      ],
    );
    expect(found).toEqual([
      { order: 2, from: 10, to: 100 },
      { order: 3, from: 1000, to: 1000 },
    ]);
  });
});

describe('evenly(total, most)', () => {
  it('spreads rows with both ends', () => {
    expect(evenly(100, 4)).toEqual([0, 33, 66, 99]);
    expect(evenly(3, 4)).toEqual([0, 1, 2]);
  });
});
