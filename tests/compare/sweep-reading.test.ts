import { expect, test } from 'vitest';
import { placesWithin, ratioAt, risingCurve } from '../../src/compare/index.ts';

/** A ratio that falls as the square root of frequency: a straight line on log-log paper. */
const axis = Float64Array.of(10, 100, 1000, 10_000);
const curve = risingCurve(
  axis,
  axis.map((hertz) => 0.1 / Math.sqrt(hertz)),
);

test('between points a sweep runs straight on log-log paper', () => {
  // The curve is such a line, so that nothing but rounding of doubles is left.
  expect(Math.abs((ratioAt(curve, 316) ?? 0) / (0.1 / Math.sqrt(316)) - 1)).toBeLessThan(1e-12);
});

test('beyond its ends a sweep says nothing', () => {
  expect(ratioAt(curve, 9.9)).toBeNull();
  expect(ratioAt(curve, 10_001)).toBeNull();
  expect(ratioAt(curve, 10)).not.toBeNull();
});

test('a band is looked at at its edges and at the points between them', () => {
  expect(placesWithin(curve, [50, 1000])).toEqual([50, 100, 1000]);
  expect(placesWithin(curve, [200, 300])).toEqual([200, 300]);
});

test('rows that do not rise past those before, that are not positive or that have no value are left out', () => {
  const places = Float64Array.of(0, 1, 2, 1.5, 3);
  const values = Float64Array.of(9, 1, 2, 8, Number.NaN);
  expect([...risingCurve(places, values).axis]).toEqual([1, 2]);
});
