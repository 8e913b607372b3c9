import { describe, expect, test } from 'vitest';
import { deviceOf } from '../../src/load/index.ts';
import { meanOfHalf } from '../../src/load/solving/half-period.ts';
import { rootNear } from '../../src/load/solving/root-near.ts';
import { searchedCycle } from '../../src/load/solving/searched-means.ts';
import { settledCycle } from '../../src/load/solving/settle.ts';
import { type Means, steadyCycle } from '../../src/load/solving/steady-means.ts';
import { offBy, stageAt, tube } from './support.ts';

const both = { coupled: [true, true], scale: 1 };
const settle = (means: (trial: Means) => Means, options = both) =>
  steadyCycle((trial) => ({ cycle: trial, means: means(trial) }), [1, 1], options)?.cycle ?? null;

describe('the steady cycle', () => {
  test('of linear influences is the solution of the equations', () => {
    // x = 3 − 2y, y = 1 − 5x: x = −1/9, y = 14/9 by elimination; fixed-point steps would run away.
    const found = settle(([x = 0, y = 0]) => [3 - 2 * y, 1 - 5 * x]);
    expect(found?.[0]).toBeCloseTo(-1 / 9, 8); // settled to a billionth
    expect(found?.[1]).toBeCloseTo(14 / 9, 8);
  });

  test('of a strongly curved influence is found too', () => {
    // x = e^(−x) has the root 0.5671432904 (omega constant).
    const found = settle(([x = 0]) => [Math.exp(-x), 0], { coupled: [true, false], scale: 1 });
    expect(found?.[0]).toBeCloseTo(0.5671432904, 8);
  });

  test('does not exist where nothing agrees', () => {
    expect(settle(([x = 0]) => [x + 1, 0], { coupled: [true, false], scale: 1 })).toBeNull();
    expect(settle(() => [Number.NaN, Number.NaN])).toBeNull();
  });
});

describe('a root near a guess', () => {
  test('is found from a good guess, a bad one and one outside of reach', () => {
    const bracket = { low: -10, high: 10 };
    for (const guess of [1.4, -9.9, 9.9, 0]) {
      expect(rootNear((x) => x ** 3 - 2, guess, bracket)).toBeCloseTo(Math.cbrt(2), 9); // 1e-13 of the width
    }
  });

  test('is none where the ends have one sign', () => {
    expect(rootNear((x) => x * x + 1, 0.5, { low: -1, high: 1 })).toBeNull();
  });
});

describe('a settled cycle', () => {
  const device = deviceOf(tube('EL34'), 'pentode');
  const stage = stageAt(device, 250, -13.5, {
    screenV: 265,
    feedOhm: 120,
    cathode: { ohm: 110, bypassed: true },
  });

  test('is the same whatever cycle it was found from', () => {
    const alone = settledCycle(stage, 2000, 13);
    const near = settledCycle(stage, 3500, 9);
    const led = settledCycle(stage, 2000, 13, near);
    for (const [k, at] of (alone?.half ?? []).entries()) {
      expect(Math.abs(at.plateA - (led?.half[k]?.plateA ?? 0))).toBeLessThan(1e-9 * stage.rest.plateA); // settled to 1e-10
    }
    expect(alone?.half).toHaveLength(65);
  });

  test('carries the averages that it was computed with, of plate and screen', () => {
    const cycle = settledCycle(stage, 2000, 13);
    const plateA = meanOfHalf(cycle?.half ?? [], (at) => at.plateA);
    const screenA = meanOfHalf(cycle?.half ?? [], (at) => at.screenA);
    const riseV = 110 * (plateA + screenA - stage.rest.plateA - stage.rest.screenA);
    expect(offBy(plateA, cycle?.line.averagePlateA ?? 0)).toBeLessThan(1e-9);
    expect(Math.abs(riseV)).toBeGreaterThan(0.1);
    expect(offBy(riseV, cycle?.line.cathodeRiseV ?? 0)).toBeLessThan(1e-7); // a difference of currents
  });

  test('is found for a drive far beyond the bias too', () => {
    const starved = stageAt(deviceOf(tube('KT88'), 'triode'), 105, -8.5, {
      cathode: { ohm: 7000, bypassed: true },
    });
    const cycle = settledCycle(starved, 55e3, 289);
    const plateA = meanOfHalf(cycle?.half ?? [], (at) => at.plateA);
    expect(offBy(plateA, cycle?.line.averagePlateA ?? 0)).toBeLessThan(1e-6); // settled to 1e-10, or bracketed to 1e-9
  });

  test('does not exist where the model jumps: its screen stops drawing when its voltage is used up', () => {
    const starved = stageAt(deviceOf(tube('6550'), 'pentode'), 120, -13, {
      screenV: 95,
      cathode: { ohm: 14_000, bypassed: true },
    });
    expect(settledCycle(starved, 9300, 187)).toBeNull();
  });
});

test('bracketing finds both averages, and nothing where none settle', () => {
  // x = 3 − y/2, y = x/4: x = 8/3, y = 2/3 by elimination.
  const linear = searchedCycle(([x = 0, y = 0]) => ({ cycle: [x, y], means: [3 - y / 2, x / 4] }), 1);
  expect(linear?.[0]).toBeCloseTo(8 / 3, 7); // 1e-9 of each, one inside the other
  expect(linear?.[1]).toBeCloseTo(2 / 3, 7);
  expect(searchedCycle(([x = 0]) => ({ cycle: x, means: [x + 1, 0] }), 1)).toBeNull();
});
