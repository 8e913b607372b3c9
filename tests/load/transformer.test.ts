import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { reflectedImpedance, turnsRatio, windingVoltageRms } from '../../src/load/index.ts';
import { check, checks, offBy } from './support.ts';

describe('reflected impedance', () => {
  test.each(checks.filter(({ id }) => id.startsWith('reflected-')))(
    '$id ($source)',
    ({ given, expected }) => {
      const { turnsRatio: ratio, loadOhm } = given as { turnsRatio: number; loadOhm: number };
      expect(reflectedImpedance(ratio, loadOhm)).toBe(expected.primaryOhm);
    },
  );

  test('5 kΩ to 8 Ω takes 25:1 (textbook companion p. 327)', () => {
    const { given, expected } = check<{ primaryOhm: number; loadOhm: number }, { turnsRatio: number }>(
      'turns-ratio',
    );
    expect(turnsRatio(given.primaryOhm, given.loadOhm)).toBeCloseTo(expected.turnsRatio, 12);
  });

  test('there and back again leaves the impedance as it was', () => {
    const ohms = fc.double({ min: 0.1, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(ohms, ohms, (primaryOhm, loadOhm) => {
        // Two roundings.
        expect(offBy(reflectedImpedance(turnsRatio(primaryOhm, loadOhm), loadOhm), primaryOhm)).toBeLessThan(
          1e-14,
        );
      }),
    );
  });
});

describe('winding voltage', () => {
  interface Winding {
    frequencyHz: number;
    turns: number;
    peakTesla: number;
    areaM2: number;
  }

  test('50 Hz, 500 turns, 1.2 T and 10 cm² give 133.29 V; 4.44 would give 133.2 V', () => {
    const { given, expected } = check<Winding, { rms: number; rmsWith444: number }>('winding-50hz');
    expect(windingVoltageRms(given)).toBeCloseTo(expected.rms, 2);
    expect(windingVoltageRms(given)).not.toBeCloseTo(expected.rmsWith444, 2);
  });

  test('is within 0.1 % of the handbooks with their rounded 4.44', () => {
    for (const id of ['winding-50hz', 'winding-30hz']) {
      const { given, expected } = check<Winding, { rmsWith444: number }>(id);
      expect(offBy(windingVoltageRms(given), expected.rmsWith444)).toBeLessThan(1e-3);
    }
  });
});
