import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { normalised, norms, readAt } from '../../src/overlay/index.ts';
import { octaves, traceOf } from './support.ts';

/** Sums and logarithms of double precision: far below a thousandth of a decibel. */
const rounding = 1e-9;

describe('reading between readings', () => {
  test('a power law is exact anywhere between its readings, as it is straight on logarithmic axes', () => {
    const square = traceOf('square', [10, 100, 1000], (x) => x ** 2);
    for (const place of [10, 31.4, 100, 777, 1000]) {
      expect((readAt(square, place) ?? 0) / place ** 2).toBeCloseTo(1, 9);
    }
  });

  test('decibels that fall by 20 a decade are exact, as they are straight over the logarithm of frequency', () => {
    const falling = traceOf('fall', [10, 100, 1000], (x) => -20 * Math.log10(x), { unit: 'dBV' });
    expect(readAt(falling, 250)).toBeCloseTo(-20 * Math.log10(250), 9);
  });

  test('nothing is read outside of the readings nor in a gap', () => {
    const gap = traceOf('gap', [10, 20, 40, 80, 160], (x) => (x === 40 ? null : x));
    expect([9.99, 30, 60, 161].map((place) => readAt(gap, place))).toEqual([null, null, null, null]);
    expect(readAt(gap, 15)).not.toBeNull();
  });

  test('a reading that stands alone is read at its own place only', () => {
    const lone = traceOf('lone', [10, 20, 40], (x) => (x === 20 ? 5 : null));
    expect([readAt(lone, 20), readAt(lone, 20.1)]).toEqual([5, null]);
  });
});

describe('as measured', () => {
  test('values, intervals and noise floors stay as they are', () => {
    const trace = traceOf('a', [1, 2], (x) => x, { low: [0.9, 1.9], high: [1.1, 2.1] });
    expect(normalised([trace], norms.none, null)).toEqual({ traces: [trace], leftOut: [] });
  });

  test('a trace whose unit is not the first one’s is left out, with the reason', () => {
    const volts = traceOf('volts', [1, 2], () => 0, { unit: 'dBV' });
    const gain = traceOf('gain', [1, 2], () => 0, { unit: 'dB' });
    const { traces, leftOut } = normalised([volts, gain], norms.none, null);
    expect(traces).toEqual([volts]);
    expect(leftOut).toEqual([expect.stringMatching(/^gain is in dB and the first trace in dBV\./)]);
  });

  test('a trace without a single reading is left out by name', () => {
    const nothing = traceOf('nothing', [1, 2], () => null);
    expect(normalised([nothing], norms.none, null)).toEqual({
      traces: [],
      leftOut: ['nothing has no reading that can be drawn.'],
    });
  });
});

describe('re the value at 1 kHz', () => {
  /** A first-order low pass at 1 kHz reads 10 lg 2 dB more far below its corner than at it. */
  const lowPass = traceOf('low pass', octaves(31.25, 10), (x) => -10 * Math.log10(1 + (x / 1000) ** 2) - 7, {
    unit: 'dBV',
  });

  test('a first-order low pass at 1 kHz ends at 10 lg 2 dB, whatever its level', () => {
    const [trace] = normalised([lowPass], norms.oneKilohertz, null).traces;
    const expected = 10 * Math.log10(2 / (1 + (31.25 / 1000) ** 2));
    expect(trace?.y[0]).toBeCloseTo(expected, 9);
    expect(trace?.unit).toBe('dB');
    expect(readAt(trace ?? lowPass, 1000)).toBeCloseTo(0, 9);
  });

  test('volts and a plain gain can stand side by side', () => {
    const gain = { ...lowPass, id: 'gain', title: 'gain', unit: 'dB' };
    expect(normalised([lowPass, gain], norms.oneKilohertz, null).leftOut).toEqual([]);
  });

  test('a sweep that ends below 1 kHz is left out and not extrapolated', () => {
    const short = traceOf('short', [20, 500], () => 1);
    expect(normalised([short], norms.oneKilohertz, null)).toEqual({
      traces: [],
      leftOut: ['short has no readings on both sides of 1 kHz, and nothing is extrapolated.'],
    });
  });

  test('intervals of single readings are not carried over to ratios', () => {
    const trace = traceOf('a', [500, 2000], () => 1, { low: [0.9, 0.9], high: [1.1, 1.1] });
    expect(Object.keys(normalised([trace], norms.oneKilohertz, null).traces[0] ?? {})).not.toContain('low');
  });
});

describe('to equal mean level', () => {
  test('a slope has its mean in the middle of the common range, whatever its readings are', () => {
    const slope = traceOf('slope', [10, 40, 90, 1000, 5000], (x) => 6 * Math.log10(x), { unit: 'dB' });
    const flat = traceOf('flat', [20, 2000], () => 33, { unit: 'dBV' });
    const [first, second] = normalised([slope, flat], norms.meanLevel, null).traces;
    expect(second?.y).toEqual([0, 0]);
    expect(readAt(first ?? slope, 200)).toBeCloseTo(0, 9);
  });

  test('traces that share no range are left out together', () => {
    const low = traceOf('low', [10, 20], () => 1);
    const high = traceOf('high', [30, 40], () => 1);
    expect(normalised([low, high], norms.meanLevel, null)).toEqual({
      traces: [],
      leftOut: ['These traces have no range in common, so that there is no mean level to hold equal.'],
    });
  });
});

describe('to equal fundamental', () => {
  test('a spectrum and its noise floor move by the level of the fundamental', () => {
    const spectrum = traceOf('s', [100, 1000], (x) => (x === 1000 ? 6 : -80), {
      ...{ view: 'spectrum', unit: 'dBV', floor: [-90, -91], carrier: 6 },
    });
    const [moved] = normalised([spectrum], norms.carrier, null).traces;
    expect([moved?.y, moved?.floor]).toEqual([
      [-86, 0],
      [-96, -97],
    ]);
  });

  test('without a fundamental a spectrum is left out', () => {
    const noise = traceOf('noise', [100, 1000], () => -80, { unit: 'dBV' });
    expect(normalised([noise], norms.carrier, null).leftOut[0]).toMatch(/^No fundamental was found in noise/);
  });
});

describe('difference from a reference', () => {
  test('twice the reference is 20 lg 2 dB above it, read between the reference’s readings', () => {
    const reference = traceOf('reference', [10, 100, 1000], (x) => x);
    const twice = traceOf('twice', [20, 200, 900], (x) => 2 * x);
    const { traces } = normalised([reference, twice], norms.difference, 'reference');
    for (const level of traces[1]?.y ?? []) expect(level).toBeCloseTo(20 * Math.log10(2), 9);
    expect(traces[1]?.y).toHaveLength(3);
    expect(traces[0]?.y).toEqual([0, 0, 0]);
  });

  test('outside of the reference’s readings there is no difference', () => {
    const reference = traceOf('reference', [100, 1000], () => 1);
    const wide = traceOf('wide', [10, 100, 500, 1000, 5000], () => 1);
    const { traces } = normalised([reference, wide], norms.difference, 'reference');
    expect(traces[1]?.y).toEqual([null, 0, 0, 0, null]);
  });

  test('a trace without overlap, and one of another unit, are left out with their reasons', () => {
    const reference = traceOf('reference', [100, 1000], () => 1);
    const beyond = traceOf('beyond', [2000, 4000], () => 1);
    const ohms = traceOf('ohms', [100, 1000], () => 8, { unit: 'Ω' });
    const { traces, leftOut } = normalised([reference, beyond, ohms], norms.difference, 'reference');
    expect(traces).toHaveLength(1);
    expect(leftOut).toEqual([
      'beyond has no reading where the reference has any, and nothing is extrapolated.',
      'ohms is in Ω and the reference in %, so that there is no difference between them.',
    ]);
  });

  test('exchanging trace and reference changes the sign, on any common readings', () => {
    const values = fc.array(fc.double({ min: 1e-4, max: 100, noNaN: true }), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(values, values, (one, other) => {
        const x = [20, 200, 2000, 20000];
        const a = traceOf('a', x, (place) => one[x.indexOf(place)] ?? null);
        const b = traceOf('b', x, (place) => other[x.indexOf(place)] ?? null);
        const there = normalised([a, b], norms.difference, 'a').traces[1]?.y ?? [];
        const back = normalised([a, b], norms.difference, 'b').traces[0]?.y ?? [];
        expect(there).toHaveLength(4);
        for (const [i, level] of there.entries()) {
          expect(Math.abs((level ?? Number.NaN) + (back[i] ?? Number.NaN))).toBeLessThan(rounding);
        }
      }),
    );
  });
});
