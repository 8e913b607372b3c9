import { describe, expect, test } from 'vitest';
import {
  dischargeTime,
  loadSheet,
  type ReservoirCapacitor,
  type SupplyDescription,
  supplySheet,
} from '../../src/load/index.ts';
import { check, offBy, tubes } from './support.ts';

const capacitor = (more: Partial<ReservoirCapacitor> = {}): ReservoirCapacitor => ({
  capacitanceF: 1e-4,
  ratedV: null,
  workingV: null,
  bleederOhm: null,
  ...more,
});

/** With a highest voltage of 450 V once the mains is 10 % high. */
const supply: SupplyDescription = {
  plateV: 300,
  currentA: null,
  sourceResistanceOhm: null,
  mainsHz: 50,
  offLoadV: 450 / 1.1,
  capacitors: [capacitor()],
};

describe('the bleeder needed for 60 V in 5 s', () => {
  test('is 24.8 kΩ and 8.16 W for 100 µF at 450 V (closed form), and a sixth less with 20 % more capacitance', () => {
    const { expected } = check<unknown, { ohm: number; watt: number }>('bleeder-needed');
    const { bleederNeeded } = supplySheet(supply);
    expect(offBy(bleederNeeded?.ohm ?? 0, expected.ohm)).toBeLessThan(1e-3); // three digits stated
    expect(offBy(bleederNeeded?.watt ?? 0, expected.watt)).toBeLessThan(1e-3); // three digits stated
    expect(bleederNeeded?.atToleranceOhm).toBeCloseTo((bleederNeeded?.ohm ?? 0) / 1.2, 9);
    expect(bleederNeeded?.atToleranceW).toBeCloseTo(450 ** 2 / (bleederNeeded?.atToleranceOhm ?? 1), 9);
  });

  test('brings the capacitors with 20 % more capacitance to 60 V in just 5 s', () => {
    const { bleederNeeded, highestV } = supplySheet(supply);
    const large = capacitor({ capacitanceF: 1.2e-4, bleederOhm: bleederNeeded?.atToleranceOhm ?? null });
    expect(dischargeTime([large], highestV ?? 0, 60)).toBeCloseTo(5, 9); // the same closed form turned round
  });

  test.each<[string, Partial<SupplyDescription>, string]>([
    ['below 60 V from the start', { plateV: 18, offLoadV: 20 }, 'below 60 V from the start'],
    ['of split rails', { splitRails: true }, 'Each rail'],
    ['without capacitors', { capacitors: [] }, 'No capacitor'],
    ['without a voltage', { plateV: null, offLoadV: null }, 'No supply voltage'],
  ])('is absent with its reason: %s', (_case, change, reason) => {
    const sheet = supplySheet({ ...supply, ...change });
    expect(sheet.bleederNeeded).toBeNull();
    expect(sheet.absent.bleederNeeded).toContain(reason);
  });
});

describe('a bleeder that is fitted', () => {
  const fitted = { ...supply, capacitors: [capacitor({ bleederOhm: 50e3, bleederRatedW: 5 })] };

  test('takes V²/R at the highest voltage, against its rating', () => {
    const [row] = supplySheet(fitted).bleeders;
    expect(row?.watt).toBeCloseTo(4.05, 9); // 450² / 50 kΩ
    expect(row?.share).toBeCloseTo(0.81, 9);
  });

  test('above its rating is a warning at the rating', () => {
    const small = { ...supply, capacitors: [capacitor({ bleederOhm: 50e3, bleederRatedW: 3 })] };
    const problems = (one: SupplyDescription) =>
      loadSheet([], one, tubes).problems.map(({ rule, path }) => `${rule} ${path.join('.')}`);
    expect(problems(small)).toEqual(['load/bleeder-rating supply.capacitors.0.bleederPower']);
    expect(problems(fitted)).toEqual([]);
  });
});

test('below 100 V the energy stands against 100 J, above it against 10 J (DOE/LBNL)', () => {
  const limit = (offLoadV: number) =>
    supplySheet({ ...supply, plateV: 18, offLoadV }).thresholds.find(({ unit }) => unit === 'J')?.limit;
  expect([limit(90), limit(91)]).toEqual([100, 10]); // 99 V and 100.1 V with the mains 10 % high
});
