import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  angleDeg,
  type Complex,
  modulus,
  over,
  plus,
  polar,
  scaledBy,
} from '../../src/signal/fit/complex.ts';
import { impedanceCurve, loudspeakerError, outputImpedance } from '../../src/signal/index.ts';
import { check } from './checks.ts';

const oneKilohertz = Float64Array.of(1000);

/** Level and phase of a source of 2.9 V behind an impedance, across a load. */
function across(loadOhm: number, source: Complex) {
  const load = { re: loadOhm, im: 0 };
  const volts = scaledBy(over(load, plus(load, source)), 2.9);
  return {
    loadOhm,
    frequencyHz: oneKilohertz,
    level: Float64Array.of(modulus(volts)),
    phaseDeg: Float64Array.of(angleDeg(volts)),
  };
}
const level = (loadOhm: number, volts: number) => ({
  loadOhm,
  frequencyHz: oneKilohertz,
  level: Float64Array.of(volts),
});

describe('output impedance from two loads', () => {
  it('is 4/49 Ω for 2.80 V at 8 Ω and 2.772 V at 4 Ω', () => {
    const { ohm, phaseDeg, halfWidthOhm } = outputImpedance(level(8, 2.8), level(4, 2.772));
    // A difference of 1 % loses two digits of double precision.
    expect(ohm[0]).toBeCloseTo(check('sweeps', 'two loads: 2.80 V at 8 ohm, 2.772 V at 4 ohm'), 12);
    expect(phaseDeg).toBeNull();
    expect(halfWidthOhm).toBeNull();
  });

  it('gives back the 0.1 Ω of a source whose levels are published here', () => {
    const volts = (ohm: number) => check('sweeps', `two loads of a source of 2.9 V and 0.1 ohm: ${ohm} ohm`);
    expect(outputImpedance(level(8, volts(8)), level(4, volts(4))).ohm[0]).toBeCloseTo(0.1, 12);
  });

  it('of a reactive source is right with phase and misleads without', () => {
    const [first, second] = [across(8, { re: 0.1, im: 1 }), across(4, { re: 0.1, im: 1 })];
    const known = outputImpedance(first, second);
    expect(known.ohm[0]).toBeCloseTo(check('sweeps', 'two loads of a source of 0.1 + 1.0j ohm: modulus'), 12);
    expect(known.phaseDeg?.[0]).toBeCloseTo(angleDeg({ re: 0.1, im: 1 }), 10);
    const moduli = outputImpedance(level(8, first.level[0] ?? 0), level(4, second.level[0] ?? 0));
    expect(moduli.ohm[0]).toBeCloseTo(
      check('sweeps', 'two loads of a source of 0.1 + 1.0j ohm: from moduli alone'),
      12,
    );
  });

  it('does not depend on which load came first, nor on a gain or turn that both share', () => {
    const part = fc.double({ min: 0.01, max: 50, noNaN: true });
    fc.assert(
      fc.property(part, part, (re, im) => {
        const [first, second] = [across(8, { re, im }), across(4, { re, im })];
        const turned = (one: typeof first) => ({
          ...one,
          level: one.level.map((volts) => 3 * volts),
          phaseDeg: one.phaseDeg.map((degrees) => degrees + 170),
        });
        for (const found of [
          outputImpedance(second, first),
          outputImpedance(turned(first), turned(second)),
        ]) {
          // Up to 50 Ω behind 8 Ω the differences lose three digits.
          expect(Math.abs((found.ohm[0] ?? 0) / Math.hypot(re, im) - 1)).toBeLessThan(1e-9);
        }
      }),
    );
  });

  it('has the interval that readings scattered within the stated accuracy spread over', () => {
    const accuracy = 0.001;
    const [first, second] = [across(8, { re: 2, im: 0 }), across(4, { re: 2, im: 0 })];
    const half = outputImpedance(first, second, accuracy).halfWidthOhm?.[0] ?? 0;
    let state = 1;
    const even = () => {
      state = (state * 48_271) % 2_147_483_647;
      return (2 * state) / 2_147_483_647 - 1;
    };
    const off = (volts: number) => volts * (1 + accuracy * even());
    const found = Array.from(
      { length: 4000 },
      () =>
        outputImpedance(level(8, off(first.level[0] ?? 0)), level(4, off(second.level[0] ?? 0))).ohm[0] ?? 0,
    );
    const spread = Math.sqrt(found.reduce((sum, ohm) => sum + (ohm - 2) ** 2 / found.length, 0));
    // 4000 draws know a standard deviation to about one per cent.
    expect(Math.abs((1.96 * spread) / half - 1)).toBeLessThan(0.04);
  });

  it('reads across the jump of a phase that is printed within half a turn', () => {
    const hertz = (list: readonly number[]) => Float64Array.from(list);
    const wrapped = (loadOhm: number, places: readonly number[], turn: (at: number) => number) => {
      const volts = over({ re: loadOhm, im: 0 }, { re: loadOhm + 1, im: 0 }).re;
      const phases = places.map((at) => ((((turn(at) + 180) % 360) + 360) % 360) - 180);
      return {
        loadOhm,
        frequencyHz: hertz(places),
        level: hertz(places.map(() => volts)),
        phaseDeg: hertz(phases),
      };
    };
    const turn = (at: number) => 170 + 20 * Math.log10(at / 1000);
    const found = outputImpedance(
      wrapped(8, [2000, 3162.2776601683795], turn),
      wrapped(4, [1000, 10_000], turn),
    );
    // The turn is straight over the logarithm of frequency, so interpolation adds nothing.
    for (const ohm of found.ohm) expect(ohm).toBeCloseTo(1, 9);
  });

  it('leaves out what has no answer and nothing outside the second load', () => {
    const same = outputImpedance(level(8, 2), { ...level(4, 1), frequencyHz: oneKilohertz });
    // Level in proportion to the load: a source of current.
    expect(same.ohm).toHaveLength(0);
    expect(same.leftOut).toBe(1);
    const apart = outputImpedance(level(8, 2), { ...level(4, 1.5), frequencyHz: Float64Array.of(2000) });
    expect(apart.ohm).toHaveLength(0);
  });
});

describe('the response error at a loudspeaker', () => {
  const frequencyHz = Float64Array.of(50, 100, 1000, 10_000);
  const curve = (value: (hertz: number) => Complex) => {
    const values = Array.from(frequencyHz, value);
    return {
      frequencyHz,
      ohm: Float64Array.from(values, modulus),
      phaseDeg: Float64Array.from(values, angleDeg),
    };
  };
  const loudspeaker = curve((hertz) => (hertz === 50 ? { re: 36, im: 0 } : { re: 6, im: 0 }));

  it('is that of two dividers, 0 dB at 1 kHz', () => {
    const error = loudspeakerError(
      curve(() => ({ re: 4, im: 0 })),
      loudspeaker,
      8,
    );
    // 36/40 over 6/10 is 3.5218 dB; the rated load drops out, as its divider is the same everywhere.
    expect(error?.largest.atHz).toBe(50);
    expect(error?.largest.db).toBeCloseTo(20 * Math.log10(36 / 40 / (6 / 10)), 12);
    expect(error?.db[2]).toBe(0);
    expect(error?.withPhase).toBe(true);
  });

  it('of a stiff source is nothing, and of a source of current follows the impedance', () => {
    const none = loudspeakerError(
      curve(() => ({ re: 0, im: 0 })),
      loudspeaker,
      8,
    );
    expect(none?.largest.db).toBeCloseTo(0, 12);
    const current = loudspeakerError(
      curve(() => ({ re: 1e9, im: 0 })),
      loudspeaker,
      8,
    );
    // 1 GΩ is not infinite: seven digits.
    expect(current?.largest.db).toBeCloseTo(20 * Math.log10(6), 6);
  });

  it('adds an inductive output to a capacitive loudspeaker', () => {
    const capacitive = curve(() => polar(20, -40));
    const inductive = curve((hertz) => ({ re: 0, im: (10 * 100) / Math.max(hertz, 100) }));
    const error = loudspeakerError(inductive, capacitive, 8);
    const plain = loudspeakerError({ ...inductive, phaseDeg: null }, { ...capacitive, phaseDeg: null }, 8);
    expect(error?.largest.db).toBeGreaterThan(2);
    expect(plain?.withPhase).toBe(false);
    expect(plain?.largest.db).toBeLessThan(error?.largest.db ?? 0);
  });

  it('does not exist where the curves do not share 1 kHz', () => {
    const low = { frequencyHz: Float64Array.of(20, 500), ohm: Float64Array.of(6, 6), phaseDeg: null };
    expect(
      loudspeakerError(
        curve(() => ({ re: 1, im: 0 })),
        low,
        8,
      ),
    ).toBeNull();
  });
});

it('an impedance curve ascends, and has phase only where all of it has', () => {
  const sweep = { frequencyHz: Float64Array.of(100, 20), ohm: Float64Array.of(8, 6) };
  expect(impedanceCurve({ ...sweep, phaseDeg: Float64Array.of(10, -10) })).toEqual({
    frequencyHz: Float64Array.of(20, 100),
    ohm: Float64Array.of(6, 8),
    phaseDeg: Float64Array.of(-10, 10),
  });
  expect(impedanceCurve({ ...sweep, phaseDeg: Float64Array.of(Number.NaN, 1) }).phaseDeg).toBeNull();
});
