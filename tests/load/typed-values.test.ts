import { describe, expect, test } from 'vitest';
import type { TypedSmallSignal } from '../../src/load/index.ts';
import { check, explanationsOf, faultsOf, offBy, resistanceCoupled, sheetOf } from './support-devices.ts';

const none: TypedSmallSignal = { mu: null, plateResistanceOhm: null, transconductanceS: null };
const stageWith = (smallSignal: TypedSmallSignal, loadOhm: number) => ({
  ...resistanceCoupled,
  device: 'any',
  bias: { kind: 'grid', gridV: -1 } as const,
  plateResistorOhm: loadOhm,
  smallSignal,
});

interface Given {
  mu: number;
  rpOhm: number;
  loadOhm: number;
}

describe('typed values', () => {
  test.each(['gain-3k-12at7', 'gain-3k-12au7', 'gain-3k-12av7', 'gain-3k-12ax7'])(
    'give the gain of Fun with Tubes, Basics 4, example 4.2: %s',
    (id) => {
      const { given, expected } = check<Given, { bypassed: number }>(id);
      const typed = { ...none, mu: given.mu, plateResistanceOhm: given.rpOhm };
      const { gain } = sheetOf(stageWith(typed, given.loadOhm));
      expect(offBy(gain?.bypassed ?? 0, expected.bypassed)).toBeLessThan(4e-3); // three digits, 12.95 printed as 12.9
    },
  );

  test('give the third value from any two', () => {
    const all = { mu: 20, plateResistanceOhm: 8000, transconductanceS: 2.5e-3 };
    for (const key of ['mu', 'plateResistanceOhm', 'transconductanceS'] as const) {
      const { typed } = sheetOf(stageWith({ ...all, [key]: null }, 47e3));
      expect(typed?.mu).toBeCloseTo(20, 9); // one product or quotient
      expect(typed?.rpOhm).toBeCloseTo(8000, 6);
      expect(typed?.gmS).toBeCloseTo(2.5e-3, 12);
    }
  });

  test('of a 6SN7GT as a data book rounds them agree (RCA, from memory); a product 6 % off warns', () => {
    const book = { mu: 20, plateResistanceOhm: 7700, transconductanceS: 2.6e-3 };
    expect(faultsOf(stageWith(book, 47e3))).toEqual([]);
    expect(faultsOf(stageWith({ ...book, mu: 18.8 }, 47e3))).toEqual([
      ['load/small-signal', 'stages.0.smallSignal'],
    ]);
  });

  test('leave large signals out and say why', () => {
    const sheet = sheetOf(stageWith({ ...none, mu: 20, plateResistanceOhm: 7700 }, 47e3));
    expect(sheet).toMatchObject({ operatingPoint: null, atLoad: null, sweep: [], candidates: [] });
    expect(sheet.absent['atLoad']).toBe('Typed small-signal values say nothing of large signals.');
    expect(explanationsOf(sheet)).toContain('for small signals only');
  });

  test('with an unbypassed cathode resistor give both gains', () => {
    const typed = { ...none, mu: 100, plateResistanceOhm: 80e3 };
    const bias = { kind: 'cathode-resistor', ohm: 3300, bypassed: false } as const;
    const { gain } = sheetOf({ ...stageWith(typed, 149.86e3), bias });
    expect(gain?.unbypassed).toBeCloseTo(26.6, 1); // Fun with Tubes, Basics 4, example 4.3: formula printed, number computed
  });

  test.each([
    ['one value alone', { ...none, mu: 20 }, 'load/missing-value', 'stages.0.smallSignal'],
    [
      'no plate resistance',
      { ...none, mu: 20, plateResistanceOhm: 0 },
      'load/out-of-range',
      'stages.0.smallSignal.plateResistance',
    ],
    [
      'not a number',
      { ...none, mu: Number.NaN, plateResistanceOhm: 10 },
      'load/out-of-range',
      'stages.0.smallSignal.mu',
    ],
  ])('%s is a fault', (_, typed, rule, path) => {
    expect(faultsOf(stageWith(typed, 47e3))).toContainEqual([rule, path]);
  });

  test('beside a measured current are a contradiction', () => {
    const measured = { plateA: 0.01, cathodeV: null, plateV: null, rescale: false };
    const stage = { ...stageWith({ ...none, mu: 20, plateResistanceOhm: 7700 }, 47e3), measured };
    expect(faultsOf(stage)).toContainEqual(['load/contradiction', 'stages.0.smallSignal']);
  });
});
