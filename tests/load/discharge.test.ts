import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dischargeTime, type ReservoirCapacitor } from '../../src/load/index.ts';
import { check, offBy } from './support.ts';

const capacitor = (
  capacitanceF: number,
  bleederOhm: number | null,
  seriesOhm: number | null = null,
): ReservoirCapacitor => ({ capacitanceF, bleederOhm, seriesOhm, ratedV: null, workingV: null });

describe('one capacitor', () => {
  test('100 µF from 450 V through 100 kΩ: 20.15 s to 60 V, 21.97 s to 50 V', () => {
    const { given, expected } = check<
      { capacitanceF: number; voltageV: number; bleederOhm: number },
      { timeTo60VoltsS: number; timeTo50VoltsS: number }
    >('discharge');
    const one = [capacitor(given.capacitanceF, given.bleederOhm)];
    // Four digits printed.
    expect(dischargeTime(one, given.voltageV, 60)).toBeCloseTo(expected.timeTo60VoltsS, 2);
    expect(dischargeTime(one, given.voltageV, 50)).toBeCloseTo(expected.timeTo50VoltsS, 2);
  });

  test('24.8 kΩ brings 100 µF from 450 V to 60 V in 5 s', () => {
    const { given, expected } = check<
      { capacitanceF: number; voltageV: number; bleederOhm: number },
      { timeTo60VoltsS: number }
    >('bleeder-5s');
    const found = dischargeTime([capacitor(given.capacitanceF, given.bleederOhm)], given.voltageV, 60);
    expect(offBy(found ?? 0, expected.timeTo60VoltsS)).toBeLessThan(1e-3); // three digits stated
  });

  test('without a bleeder there is no time; below the limit already, there is none to wait', () => {
    expect(dischargeTime([capacitor(1e-4, null)], 450, 60)).toBeNull();
    expect(dischargeTime([], 450, 60)).toBeNull();
    expect(dischargeTime([capacitor(1e-4, 1e5)], 48, 60)).toBe(0);
  });
});

describe('several capacitors', () => {
  test('joined without resistance they add, and so do their bleeders', () => {
    const pair = dischargeTime([capacitor(1e-4, 220e3), capacitor(47e-6, 100e3, 0)], 400, 60);
    const ohm = 1 / (1 / 220e3 + 1 / 100e3);
    expect(offBy(pair ?? 0, ohm * 147e-6 * Math.log(400 / 60))).toBeLessThan(1e-12); // the same arithmetic
  });

  test('a filter resistor far below the bleeder changes next to nothing', () => {
    const joined = dischargeTime([capacitor(1e-4, 220e3), capacitor(47e-6, null, 0)], 400, 60) ?? 0;
    const filtered = dischargeTime([capacitor(1e-4, 220e3), capacitor(47e-6, null, 100)], 400, 60) ?? 0;
    expect(filtered).toBeGreaterThan(joined);
    expect(offBy(filtered, joined)).toBeLessThan(1e-3); // 100 Ω of 220 kΩ
  });

  test('two equal halves joined by a resistor, each with its own bleeder, fall as one', () => {
    const found = dischargeTime([capacitor(1e-4, 100e3), capacitor(1e-4, 100e3, 10e3)], 400, 60);
    expect(offBy(found ?? 0, 10 * Math.log(400 / 60))).toBeLessThan(1e-9); // solver tolerance
  });

  test('agree with stepping the circuit through time, whatever the ladder', () => {
    const farads = fc.double({ min: 10e-6, max: 200e-6, noNaN: true });
    const ladder = fc.record({
      first: farads,
      second: farads,
      third: farads,
      bleederOhm: fc.double({ min: 20e3, max: 300e3, noNaN: true }),
      seriesOhm: fc.double({ min: 5e3, max: 100e3, noNaN: true }),
    });
    fc.assert(
      fc.property(ladder, ({ first, second, third, bleederOhm, seriesOhm }) => {
        const parts = [
          capacitor(first, null),
          capacitor(second, bleederOhm, seriesOhm),
          capacitor(third, 2 * bleederOhm, seriesOhm / 2),
        ];
        const found = dischargeTime(parts, 400, 60) ?? 0;
        expect(offBy(stepped(parts, 400, 60), found)).toBeLessThan(2e-3); // first-order steps of 1/2000 of the time
      }),
      { numRuns: 40 },
    );
  });
});

/** Time by small explicit steps, as an independent calculation. */
function stepped(parts: readonly ReservoirCapacitor[], startV: number, limitV: number): number {
  const fastest = Math.min(...parts.map((part) => part.capacitanceF * 2500));
  const step = Math.min(fastest / 10, 1e-3);
  let voltages = parts.map(() => startV);
  let time = 0;
  while (Math.max(...voltages) > limitV && time < 1e4) {
    voltages = voltages.map((voltage, index) => {
      const part = parts[index];
      const join = (other: number, ohm: number | null | undefined) =>
        ohm ? ((voltages[other] ?? voltage) - voltage) / ohm : 0;
      const leak = part?.bleederOhm ? -voltage / part.bleederOhm : 0;
      const before = index > 0 ? join(index - 1, part?.seriesOhm) : 0;
      const after = join(index + 1, parts[index + 1]?.seriesOhm);
      return voltage + (step * (leak + before + after)) / (part?.capacitanceF ?? 1);
    });
    time += step;
  }
  return time;
}
