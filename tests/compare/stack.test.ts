import { describe, expect, test } from 'vitest';
import { mergedCurves, stackedCurve } from '../../src/compare/index.ts';
import { curve, places } from './curves.ts';

const axis = places(20, 20_000, 16);
const options = { tolerance: 10 ** (0.1 / 20), order: 3 };

/** A third harmonic that rises with the square of the level, taken at one level. */
const layer = (volts: number, bound = 0) => ({
  curve: curve(
    axis,
    axis.map((hertz) => 0.001 * volts ** 2 * (1 + 100 / hertz)),
    'harmonic-3',
    bound,
  ),
  level: { axis: Float64Array.from(axis), values: Float64Array.from(axis, () => volts) },
});

describe('stackedCurve', () => {
  test('reads between two levels along a power law, exactly', () => {
    const found = stackedCurve([layer(1), layer(4)], 2, options);
    // The square law is straight on log-log paper: rounding alone.
    expect(found?.values[3]).toBeCloseTo(0.004 * (1 + 100 / (axis[3] ?? 1)), 12);
    expect(found?.axis).toHaveLength(16);
  });

  test('never reads beyond the levels that were taken', () => {
    expect(stackedCurve([layer(1), layer(4)], 5, options)).toBeNull();
    expect(stackedCurve([layer(1), layer(4)], 0.5, options)).toBeNull();
    expect(stackedCurve([], 1, options)).toBeNull();
  });

  test('takes a level within a tenth of a decibel as equal, and counts what that may be off by', () => {
    const off = 10 ** (0.08 / 20);
    const found = stackedCurve([layer(off, 1e-5)], 1, options);
    const value = found?.values[0] ?? 0;
    expect(value).toBeCloseTo(layer(off).curve.values[0] ?? 0, 12);
    // Order 3 goes with the square of the level, to first order 2·ln of the ratio.
    expect(found?.bound[0]).toBeCloseTo(1e-5 + value * 2 * Math.log(off), 12);
    expect(stackedCurve([layer(10 ** (0.12 / 20))], 1, options)).toBeNull();
  });

  test('takes the geometric mean of sweeps at one level, so that exchanged channels cancel', () => {
    const [left, right] = [1.2, 1 / 1.2].map((gain) => {
      const { curve: one, level } = layer(1);
      return { curve: { ...one, values: one.values.map((value) => value * gain) }, level };
    });
    const found = left && right ? stackedCurve([left, right], 1, options) : null;
    expect(found?.values[5]).toBeCloseTo(layer(1).curve.values[5] ?? 0, 12);
  });
});

describe('mergedCurves', () => {
  test('takes the geometric mean where all curves reach, and one curve as it is', () => {
    const one = curve([10, 100, 1000], [0.01, 0.01, 0.01]);
    const other = curve([50, 5000], [0.04, 0.04]);
    expect([...(mergedCurves([one, other])?.axis ?? [])]).toEqual([100, 1000]);
    expect(mergedCurves([one, other])?.values[0]).toBeCloseTo(0.02, 12);
    expect(mergedCurves([one])).toBe(one);
    expect(mergedCurves([])).toBeNull();
  });
});
