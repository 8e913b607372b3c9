import { describe, expect, it } from 'vitest';
import { angleDeg, type Complex, modulus, over, plus } from '../../src/signal/fit/complex.ts';
import { impedanceDetails } from '../../src/signal/index.ts';
import { ratedImpedance } from '../../src/signal/sweep/impedance-details.ts';
import { check } from './checks.ts';

const grid = (low: number, high: number, count: number) =>
  Float64Array.from({ length: count }, (_, i) => low * (high / low) ** (i / (count - 1)));

function sweepOf(frequencyHz: Float64Array, impedance: (hertz: number) => Complex) {
  const values = Array.from(frequencyHz, impedance);
  return {
    frequencyHz,
    ohm: Float64Array.from(values, modulus),
    phaseDeg: Float64Array.from(values, angleDeg),
  };
}
const withoutPhase = ({ frequencyHz, ohm }: ReturnType<typeof sweepOf>) => ({ frequencyHz, ohm });

const resonator = (hertz: number) =>
  plus({ re: 6, im: 0 }, over({ re: 30, im: 0 }, { re: 1, im: 5 * (hertz / 50 - 50 / hertz) }));
const coil = (ohm: number, henry: number) => (hertz: number) => ({
  re: ohm,
  im: 2 * Math.PI * hertz * henry,
});

describe('the circuits that the tests build', () => {
  it('have the moduli and phases of the check values', () => {
    // Double precision against thirty digits.
    expect(modulus(resonator(20))).toBeCloseTo(check('linear', 'resonance at 20 Hz in ohms'), 12);
    expect(angleDeg(resonator(20))).toBeCloseTo(check('sweeps', 'resonance at 20 Hz: phase'), 12);
    expect(angleDeg(resonator(100))).toBeCloseTo(check('sweeps', 'resonance at 100 Hz: phase'), 12);
    expect(modulus(coil(8, 1e-3)(1000))).toBeCloseTo(check('sweeps', '8 ohm and 1 mH at 1 kHz: modulus'), 12);
    expect(angleDeg(coil(8, 1e-3)(1000))).toBeCloseTo(check('sweeps', '8 ohm and 1 mH at 1 kHz: phase'), 12);
  });
});

describe('rated impedance', () => {
  it('is the largest standard value of which the modulus is 80 % (IEC 60268-5, from memory)', () => {
    expect([3.19, 3.2, 4.79, 4.8, 6.39, 6.4, 12.79, 12.8, 100].map(ratedImpedance)).toEqual([
      ...[null, 4, 4, 6, 6, 8, 8, 16, 16],
    ]);
  });

  it('comes from the smallest modulus of the swept band', () => {
    expect(impedanceDetails(sweepOf(grid(20, 20_000, 91), resonator)).ratedOhm).toBe(6);
    expect(
      impedanceDetails({ frequencyHz: Float64Array.of(1, 2), ohm: Float64Array.of(0, -1) }).ratedOhm,
    ).toBeNull();
  });
});

describe('resonance', () => {
  const sweep = sweepOf(grid(15, 1000, 61), resonator);

  it('is where the phase passes zero, with the modulus there', () => {
    const { resonance } = impedanceDetails(sweep);
    expect(resonance?.by).toBe('phase');
    // Seven per cent between readings: a straight phase across the bend misses 50 Hz by a fiftieth of the step.
    expect(Math.abs((resonance?.atHz ?? 0) / 50 - 1)).toBeLessThan(1.5e-3);
    // The modulus runs straight between two points either side of the top, up to 3 % below it.
    expect(Math.abs((resonance?.ohm ?? 0) / 36 - 1)).toBeLessThan(0.04);
  });

  it('without phase is the top of the hill, between its measured neighbours', () => {
    const { resonance } = impedanceDetails(withoutPhase(sweep));
    expect(resonance?.by).toBe('modulus');
    // A parabola through three points of a rounded top.
    expect(Math.abs((resonance?.atHz ?? 0) / 50 - 1)).toBeLessThan(5e-3);
    expect(resonance?.betweenHz[0]).toBeLessThan(50);
    expect(resonance?.betweenHz[1]).toBeGreaterThan(50);
  });

  it('is not a ripple of half a decibel, an edge of the sweep, or a hill at high frequencies', () => {
    const ripple = grid(20, 1000, 200);
    const wavy = { frequencyHz: ripple, ohm: ripple.map((_, i) => 8 * (1 + 0.03 * Math.sin(i / 5))) };
    expect(impedanceDetails(wavy).resonance).toBeNull();
    expect(impedanceDetails(sweepOf(grid(50, 1000, 40), resonator)).resonance).toBeNull();
    const high = sweepOf(grid(500, 20_000, 90), (hertz) => resonator(hertz / 60));
    expect(impedanceDetails(high).resonance).toBeNull();
  });
});

describe('inductance', () => {
  it('of a coil with resistance is read where the reactance rules', () => {
    const { inductance } = impedanceDetails(sweepOf(grid(20, 100_000, 120), coil(8, 1e-3)));
    expect(inductance?.by).toBe('reactance');
    // The reactance is exact; the phase is 80° from 7.2 kHz on.
    expect(inductance?.henry).toBeCloseTo(1e-3, 12);
    expect(inductance?.rangeHz[0]).toBeGreaterThan(7000);
  });

  it('without phase comes from the modulus, which resistance makes a little too large', () => {
    const { inductance } = impedanceDetails(withoutPhase(sweepOf(grid(20, 100_000, 120), coil(8, 1e-3))));
    expect(inductance?.by).toBe('modulus');
    expect(inductance?.henry).toBeGreaterThanOrEqual(1e-3);
    // The mean of √(1 + (R/X)²) over a stretch that may begin where R is a fifth of X.
    expect(inductance?.henry).toBeLessThan(1.02e-3);
  });

  it('of a published output transformer comes back from its own values (test report of 1951)', () => {
    const henry = check('sweeps', 'primary inductance of an output transformer at 5 V, 50 Hz');
    const ohm = check('sweeps', 'series resistance of that primary');
    const { inductance } = impedanceDetails(sweepOf(grid(20, 500, 60), coil(ohm, henry)));
    expect(inductance?.henry).toBeCloseTo(henry, 8);
    // 80° needs a reactance 5.7 times the 4.7 kΩ, from 44.7 Hz on.
    expect(inductance?.rangeHz[0]).toBeGreaterThan(44);
  });

  it('is withheld where a resistance hides it, as with the leakage of that transformer below 10 kHz', () => {
    const leakage = coil(
      check('sweeps', 'series resistance of that leakage'),
      check('sweeps', 'leakage inductance of that transformer, 1 kHz'),
    );
    expect(impedanceDetails(sweepOf(grid(100, 10_000, 60), leakage)).inductance).toBeNull();
    const wide = impedanceDetails(sweepOf(grid(100, 500_000, 120), leakage)).inductance;
    expect(wide?.henry).toBeCloseTo(0.0053, 10);
  });

  it('is withheld for less than an octave', () => {
    expect(impedanceDetails(sweepOf(grid(1000, 1800, 30), coil(0, 1))).inductance).toBeNull();
  });
});
