import { expect, test } from 'vitest';
import { summariseImpedanceSweep } from '../../src/signal/index.ts';
import { check } from './checks.ts';

const frequencyHz = Float64Array.of(20, 50, 100);
/** Shared check values of a resonance at 50 Hz: circuit theory. */
const ohm = Float64Array.from(frequencyHz, (hertz) => check('linear', `resonance at ${hertz} Hz in ohms`));

test('the extremes are measured points: a resonance reads its modulus at its own frequency', () => {
  expect(summariseImpedanceSweep({ frequencyHz, ohm })).toEqual({
    minimum: { ohm: ohm[0], atHz: 20 },
    maximum: { ohm: 36, atHz: 50 },
  });
});

test('points that are not above zero are left out, and a sweep of nothing else has no extremes', () => {
  const spoilt = Float64Array.of(0, Number.NaN, 8);
  expect(summariseImpedanceSweep({ frequencyHz, ohm: spoilt })).toEqual({
    minimum: { ohm: 8, atHz: 100 },
    maximum: { ohm: 8, atHz: 100 },
  });
  const none = Float64Array.of(0, -1, Number.POSITIVE_INFINITY);
  expect(summariseImpedanceSweep({ frequencyHz, ohm: none })).toEqual({ minimum: null, maximum: null });
});
