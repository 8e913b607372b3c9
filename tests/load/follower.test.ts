import { describe, expect, test } from 'vitest';
import { upperCurrent } from '../../src/load/follower/follower-cycle.ts';
import type { FollowerDescription, FollowerState, SupplyDescription } from '../../src/load/index.ts';
import { classA, classAB, classB, followerOf, there } from './follower-support.ts';
import { offBy } from './support.ts';

/** Mean values of 360 instants of a half-rectified sine: 2.5e-5 below the integral. */
const sampled = 5e-5;

const spent = ({ balance }: FollowerState) =>
  balance.loadW + balance.upperW + balance.lowerW + balance.emitterW;

const supply: SupplyDescription = {
  plateV: 18,
  currentA: 0.06,
  sourceResistanceOhm: 1,
  mainsHz: 50,
  offLoadV: 20,
  capacitors: [],
};

describe('energy', () => {
  const cases: [string, Partial<FollowerDescription>, FollowerDescription][] = [
    ['class B', {}, classB],
    ['class AB', {}, classAB],
    ['two pairs on a single supply', { count: 2, railV: 40, outputCapacitorF: 2.2e-3 }, classAB],
    ['class A on a current source', { emitterOhm: 0.5 }, classA],
    ['class A on a resistor', { biasA: null, sinkOhm: 12 }, classA],
  ];

  test.each(cases)(
    '%s: what the rails give is in load, transistors and resistors, to a thousandth',
    (_, change, from) => {
      const { byOutput, largest, worst } = followerOf(change, from, supply).sheet;
      for (const state of [...byOutput, there(largest), there(worst)]) {
        const lost = Math.abs(spent(state) - state.balance.supplyW);
        expect(lost).toBeLessThanOrEqual(1e-3 * state.balance.supplyW);
      }
    },
  );

  test('both sides of a pair dissipate alike', () => {
    const { upperW, lowerW } = there(followerOf({}, classAB).sheet.worst).balance;
    expect(offBy(upperW, lowerW)).toBeLessThan(1e-9); // symmetric instants
  });
});

describe('a class B pair', () => {
  const { byOutput, largest, worst, rest } = followerOf({}, classB).sheet;

  test('dissipates Ûo·U/(πR) − Ûo²/(4R) in each transistor at any output (closed form)', () => {
    for (const { outputPeakV, deviceW } of byOutput) {
      const closed = (outputPeakV * 30) / (Math.PI * 16) - outputPeakV ** 2 / 64;
      expect(Math.abs(deviceW - closed)).toBeLessThan(1e-3); // of 5.7 W, sampling of the half sine
    }
  });

  test('is worst at 2/π of the rail, where the efficiency is a half', () => {
    expect(offBy(there(worst).outputPeakV, 60 / Math.PI)).toBeLessThan(1e-3); // flat maximum
    expect(offBy(there(worst).efficiency, 0.5)).toBeLessThan(1e-3);
  });

  test('draws nothing at rest and swings to the rail', () => {
    expect(there(rest).balance.supplyW).toBe(0);
    expect(there(rest).efficiency).toBe(0);
    expect(there(largest).outputPeakV).toBeCloseTo(30, 6);
  });

  test('has a peak dissipation of U²/(4R) in each transistor (closed form, at half the rail)', () => {
    expect(offBy(there(largest).peakDeviceW, 30 ** 2 / 64)).toBeLessThan(1e-9); // sin 30° is an instant
  });

  test('dissipates √2 times as much at 45°, where the swing reaches the maximum (closed form)', () => {
    const reactive = followerOf({}, classB).sheet.loads.find(({ angleDeg }) => angleDeg === 45);
    expect(offBy(there(reactive).worstDeviceW, (Math.SQRT2 * 30 ** 2) / (Math.PI ** 2 * 16))).toBeLessThan(
      1e-4,
    );
  });

  test('dissipates in inverse proportion to the load', () => {
    for (const { loadOhm, resistiveW } of followerOf({}, classB).sheet.byLoad) {
      expect(offBy(resistiveW, 30 ** 2 / (Math.PI ** 2 * loadOhm))).toBeLessThan(2 * sampled); // a difference of two means
    }
  });
});

describe('current at rest', () => {
  test('is shared evenly up to twice itself, where one side stops', () => {
    expect([-1, -0.08, 0, 0.04, 0.08, 1].map((loadA) => upperCurrent(0.04, loadA))).toEqual([
      0, 0, 0.04, 0.06, 0.08, 1,
    ]);
  });

  test('gives class A up to 2·I0²·R: 25.6 mW at 40 mA, 0.36 W at 150 mA into 8 Ω', () => {
    expect(followerOf({ biasA: 0.04 }, classAB).sheet.classAW).toBeCloseTo(0.0256, 9);
    expect(followerOf({ biasA: 0.15 }, classAB).sheet.classAW).toBeCloseTo(0.36, 9);
  });

  test('of two pairs in parallel counts twice, and each transistor has half the heat', () => {
    const one = followerOf({ emitterOhm: 0.1 }, classAB).sheet;
    const two = followerOf({ emitterOhm: 0.2, count: 2, biasA: 0.02 }, classAB).sheet;
    expect(two.classAW).toBeCloseTo(there(one.classAW), 12);
    expect(there(two.worst).deviceW).toBeCloseTo(there(one.worst).deviceW / 2, 9);
    expect(there(two.largest).outputW).toBeCloseTo(there(one.largest).outputW, 9);
  });

  test('reads 8 mV across both emitter resistors at 40 mA and 0.1 Ω', () => {
    expect(followerOf({}, classAB).sheet.biasReadingV).toBeCloseTo(8e-3, 12);
  });

  test('enough of it makes a pair class A, which then draws the same at any output', () => {
    const { byOutput, classAW, largest } = followerOf({ biasA: 1.2 }, classAB).sheet;
    expect(classAW).toBe(there(largest).outputW);
    for (const { balance } of byOutput) expect(offBy(balance.supplyW, 2 * 18 * 1.2)).toBeLessThan(1e-9);
  });

  // An independent law: two exponential junctions behind their emitter resistors, solved at every instant.
  test.each([0.04, 0.15])(
    '%d A: exponential junctions dissipate within 4 per cent of it at the worst output',
    (biasA) => {
      const { worst } = followerOf({ biasA, lossV: 0 }, classAB).sheet;
      const { outputPeakV, deviceW, railV } = there(worst);
      let sum = 0;
      for (let k = 0; k < 360; k++) {
        const outV = outputPeakV * Math.sin((2 * Math.PI * k) / 360);
        const upperA = junctionShare(biasA, outV / 8);
        sum += (railV - outV - 0.1 * upperA) * upperA;
      }
      expect(offBy(sum / 360, deviceW)).toBeLessThan(0.04); // two laws of handover; 3 % at 150 mA
    },
  );
});

/** Upper current of two junctions with 0.1 Ω each: VT·ln(i1·i2/I0²) + R·(i1 + i2 − 2·I0) = 0, by bisection. */
function junctionShare(restA: number, loadA: number): number {
  let [low, high] = [Math.max(0, loadA), Math.max(0, loadA) + 4 * restA];
  for (let step = 0; step < 200; step++) {
    const upper = (low + high) / 2;
    const lower = upper - loadA;
    const excess = 0.026 * Math.log((upper * lower) / restA ** 2) + 0.1 * (upper + lower - 2 * restA);
    if (excess > 0) high = upper;
    else low = upper;
  }
  return (low + high) / 2;
}

describe('the largest sine', () => {
  test('leaves the rail less loss, emitter resistor and sag at the crest', () => {
    const { sheet } = followerOf({ railV: null }, classAB, supply);
    const { outputPeakV, averageA, railV } = there(sheet.largest);
    expect(railV).toBeCloseTo(18 - (averageA - 0.06), 12);
    expect(outputPeakV).toBeCloseTo(railV - 2 - 0.1 * (outputPeakV / 8), 6); // the root is found to 1e-9
    expect(offBy(averageA, outputPeakV / 8 / Math.PI)).toBeLessThan(2e-3); // class B but for 40 mA at rest
  });

  test('of a follower on a current source ends where the current is used up', () => {
    const { sheet } = followerOf({ biasA: 1 }, classA);
    expect(sheet.limitedBy).toBe('cut-off');
    expect(there(sheet.largest).outputPeakV).toBeCloseTo(8, 6);
  });

  test('of a follower on a resistor ends at U·RL/(R + RL) (divider)', () => {
    const { sheet } = followerOf({ biasA: null, sinkOhm: 12 }, classA);
    expect(there(sheet.largest).outputPeakV).toBeCloseTo((20 * 8) / 20, 6);
    expect(there(sheet.rest).averageA).toBeCloseTo(20 / 12, 12);
  });

  test('with a high load ends at the rail, also of a follower', () => {
    expect(followerOf({ loadOhm: 100 }, classA).sheet.limitedBy).toBe('supply');
  });

  test('of a class A follower reaches 25 % at most with a current source (half of U·I0 over 2·U·I0)', () => {
    const { largest, worst } = followerOf({ biasA: 2.5 }, classA).sheet;
    expect(there(largest).efficiency).toBeCloseTo(0.25, 6);
    expect(there(worst).outputPeakV).toBe(0);
  });
});

describe('a single supply', () => {
  test('works as two rails of half of it, with half the source resistance', () => {
    const single = { ...supply, plateV: 36, sourceResistanceOhm: 2 };
    const split = followerOf({ railV: null }, classAB, supply).sheet;
    const joined = followerOf({ railV: null, outputCapacitorF: 2.2e-3 }, classAB, single).sheet;
    expect(there(joined.largest).outputW).toBeCloseTo(there(split.largest).outputW, 9);
    expect(joined.supplyKind).toBe('single');
    expect(there(joined.rest).railV).toBeCloseTo(18.02, 9);
  });

  test('has a low corner of 1/(2πRC): 9.04 Hz of 2200 µF into 8 Ω', () => {
    expect(followerOf({ outputCapacitorF: 2.2e-3 }, classAB).sheet.lowCornerHz).toBeCloseTo(9.043, 3);
    expect(followerOf({}, classAB).sheet.lowCornerHz).toBeNull();
    expect(followerOf({}, classAB).sheet.absent.lowCornerHz).toContain('without a capacitor');
  });
});
