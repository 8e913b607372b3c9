import { describe, expect, test } from 'vitest';
import { type FollowerStage, followerCycle } from '../../src/load/follower/follower-cycle.ts';
import { resistanceFromRating } from '../../src/load/follower/thermal.ts';
import { classA, classAB, followerOf, path, there } from './follower-support.ts';
import { check, offBy } from './support.ts';

/** Mean values of 360 instants of a half-rectified sine: 2.5e-5 below the integral. */
const sampled = 5e-5;

interface ClassB {
  railV: number;
  loadOhm: number;
  outputPeakV: number;
}

/** A class B stage at a peak of the output, through the power that a maker would ask for. */
const classBAt = ({ railV, loadOhm, outputPeakV }: ClassB) =>
  there(followerOf({ railV, loadOhm, powerW: outputPeakV ** 2 / (2 * loadOhm) }).sheet.stated);

describe('class B against published examples', () => {
  test('30 V into 16 Ω: 28.125 W of 35.81 W, 78.54 %, and 5.7 W at worst in each (Boylestad, example 12.8)', () => {
    const { given, expected } = check<ClassB, Record<string, number>>('class-b-30-16');
    const { largest, worst } = followerOf({ railV: given.railV, loadOhm: given.loadOhm }).sheet;
    expect(there(largest).outputW).toBeCloseTo(expected.outputW ?? 0, 4); // exact in the book
    expect(offBy(there(largest).balance.supplyW, expected.supplyW ?? 0)).toBeLessThan(2e-4); // four digits printed
    expect(offBy(there(largest).efficiency, expected.efficiency ?? 0)).toBeLessThan(1e-4); // four digits printed
    expect(offBy(there(worst).deviceW, expected.worstDeviceW ?? 0)).toBeLessThan(2e-4); // four digits, and sampling
  });

  test.each(['class-b-24-22', 'class-b-24-6'])(
    '%s: efficiency is 78.54 % of the share of the rail (Boylestad, example 12.9)',
    (id) => {
      const { given, expected } = check<Omit<ClassB, 'loadOhm'>, { efficiency: number }>(id);
      expect(offBy(classBAt({ ...given, loadOhm: 8 }).efficiency, expected.efficiency)).toBeLessThan(3e-4); // four digits
    },
  );

  test('12 V and 2.5 A: 15 W of 19.10 W, 78.54 % (FOSSEE 2882, example 8.14)', () => {
    const { given, expected } = check<{ railV: number; crestA: number }, Record<string, number>>(
      'class-b-12-2.5',
    );
    const { largest } = followerOf({ railV: given.railV, loadOhm: given.railV / given.crestA }).sheet;
    expect(there(largest).outputW).toBeCloseTo(expected.outputW ?? 0, 4);
    expect(offBy(there(largest).balance.supplyW, expected.supplyW ?? 0)).toBeLessThan(3e-4); // four digits
    expect(offBy(there(largest).efficiency, expected.efficiency ?? 0)).toBeLessThan(1e-4);
  });

  test('20 V, 4 Ω, 15 V peak: 58.9 %, and on split rails 28.125 W of 47.75 W, not the powers of the book', () => {
    const { given, expected } = check<ClassB, { efficiency: number }>('class-b-20-15');
    const state = classBAt(given);
    expect(offBy(state.efficiency, expected.efficiency)).toBeLessThan(5e-4); // three digits printed
    expect(state.outputW).toBeCloseTo(28.125, 9);
    expect(offBy(state.balance.supplyW, 47.746)).toBeLessThan(sampled);
  });
});

describe('class A against published examples', () => {
  interface ClassA {
    supplyV: number;
    restA: number;
    crestA: number;
    loadOhm: number;
  }

  test('482.5 mA from 20 V: 0.625 W of 9.65 W, 6.48 % (FOSSEE 2459, example 15.4)', () => {
    const { given, expected } = check<ClassA, Record<string, number>>('class-a-482ma');
    const powerW = (given.crestA ** 2 * given.loadOhm) / 2;
    const single = {
      railV: given.supplyV,
      outputCapacitorF: 1e-3,
      biasA: given.restA,
      loadOhm: given.loadOhm,
    };
    const state = there(followerOf({ ...single, powerW }, classA).sheet.stated);
    expect(state.outputW).toBeCloseTo(expected.outputW ?? 0, 9);
    expect(state.balance.supplyW).toBeCloseTo(expected.supplyW ?? 0, 9);
    expect(offBy(state.efficiency, expected.efficiency ?? 0)).toBeLessThan(1e-3); // three digits
  });

  test.each([
    ['class-a-810ma', '810 mA from 25 V: 4.5 W of 20.25 W, 22.22 % (FOSSEE 2882, example 8.7)'],
    ['class-a-37ma', '37 mA from 20 V: 117.4 mW of 740 mW, 15.9 % (FOSSEE 2882, example 8.5)'],
  ])('%s, as arithmetic: %s, whose swing a follower would clip', (id) => {
    const { given, expected } = check<ClassA, Record<string, number>>(id);
    const stage: FollowerStage = {
      pair: false,
      count: 1,
      restA: given.restA,
      sinkOhm: null,
      emitterOhm: 0,
      lossV: 0,
      railAt: () => given.supplyV / 2,
    };
    const { state } = followerCycle(stage, { ohm: given.loadOhm, angleDeg: 0 }, given.crestA * given.loadOhm);
    expect(offBy(state.outputW, expected.outputW ?? 0)).toBeLessThan(2e-4); // four digits
    expect(state.balance.supplyW).toBeCloseTo(expected.supplyW ?? 0, 9);
    expect(offBy(state.efficiency, expected.efficiency ?? 0)).toBeLessThan(3e-3); // three digits
  });
});

test('output power is the squared voltage over the load (Mehta, examples 12.2 and 12.3)', () => {
  const rms = check<{ outputVrms: number; loadOhm: number }, { outputW: number }>('output-10.6v-200');
  const peak = check<{ outputPeakToPeakV: number; loadOhm: number }, { outputW: number }>('output-18vpp-100');
  const stage: FollowerStage = {
    pair: true,
    count: 1,
    restA: 0,
    sinkOhm: null,
    emitterOhm: 0,
    lossV: 0,
    railAt: () => 30,
  };
  const at = (ohm: number, peakV: number) => followerCycle(stage, { ohm, angleDeg: 0 }, peakV).state.outputW;
  expect(at(rms.given.loadOhm, rms.given.outputVrms * Math.SQRT2)).toBeCloseTo(rms.expected.outputW, 4); // four digits
  expect(at(peak.given.loadOhm, peak.given.outputPeakToPeakV / 2)).toBeCloseTo(peak.expected.outputW, 9);
});

describe('thermal paths against published examples', () => {
  interface Path {
    maxJunctionC: number;
    ambientC: number;
    junctionToCase: number;
    caseToSink: number;
    sinkToAmbient: number;
    ratedW: number;
  }

  const thermalOf = (given: Partial<Path>) =>
    there(
      followerOf(
        {
          thermal: { ...path, junctionToCase: null, devices: 1, ...given },
          ratings: { voltageV: null, currentA: null, powerW: given.ratedW ?? null, source: 'the example' },
        },
        classAB,
      ).sheet.thermal,
    );

  test('200 °C over 80 °C through 0.5, 0.8 and 1.5 K/W: 42.86 W (Boylestad, 11th ed., chapter 12, problem 24)', () => {
    const { given, expected } = check<Path, { deviceW: number }>('thermal-200-80');
    expect(thermalOf(given).mostDeviceW).toBeCloseTo(expected.deviceW, 2); // digits printed
  });

  test('150 °C over 25 °C through 0.4, 0.1 and 0.5 K/W: 125 W with the case at 100 °C (Rashid, example 4.4)', () => {
    const { given, expected } = check<Path, { deviceW: number; caseC: number }>('thermal-150-25');
    const thermal = thermalOf(given);
    expect(thermal.mostDeviceW).toBeCloseTo(expected.deviceW, 9);
    expect(given.maxJunctionC - thermal.junctionToCase * thermal.mostDeviceW).toBeCloseTo(expected.caseC, 9);
  });

  test('a rating of 20 W at 175 °C is 7.5 K/W, and leaves 11.11 W behind 1 and 5 K/W (FOSSEE 1223, example 8.3)', () => {
    const { given, expected } = check<Path, { junctionToCase: number; deviceW: number }>('thermal-from-20w');
    const { ratedW, ...chain } = given;
    expect(resistanceFromRating(ratedW, given.maxJunctionC)).toBe(expected.junctionToCase);
    const thermal = thermalOf({ ...chain, ratedW });
    expect(thermal.junctionToCaseBasis).toBe('from the rated power');
    expect(thermal.mostDeviceW).toBeCloseTo(expected.deviceW, 2); // digits printed
  });
});
