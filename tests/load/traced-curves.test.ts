import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitOfModel } from '../../src/load/device/model-fit.ts';
import { tracedDevice } from '../../src/load/device/traced-device.ts';
import { deviceOf, type TubeStageDescription, tracedFamily } from '../../src/load/index.ts';
import {
  explanationsOf,
  faultsOf,
  offBy,
  pentode,
  sampled,
  sheetOf,
  singleEnded,
  steps,
  tube,
} from './support-devices.ts';

const model = deviceOf(tube('300B'), 'triode');
const modelCurrent = (plateV: number, gridV: number) => model.plateCurrent({ plateV, screenV: 0, gridV });
const wide = sampled(modelCurrent, steps(-160, 0, 10), steps(0, 800, 20));
const stage: TubeStageDescription = { ...singleEnded, curves: wide };

const at = (plateV: number, gridV: number) => ({ plateV, screenV: 0, gridV });

describe('interpolation between traced points', () => {
  const family = fc
    .record({
      grids: fc.uniqueArray(fc.integer({ min: -100, max: 0 }), { minLength: 2, maxLength: 7 }),
      plates: fc.uniqueArray(fc.integer({ min: 0, max: 500 }), { minLength: 2, maxLength: 12 }),
      perveance: fc.double({ min: 1e-6, max: 1e-4, noNaN: true }),
      noise: fc.array(fc.double({ min: 0, max: 0.02, noNaN: true }), { minLength: 84, maxLength: 84 }),
    })
    .map(({ grids, plates, perveance, noise }) => {
      let drawn = 0;
      const noisy = (plateV: number, gridV: number) =>
        perveance * Math.max(0, plateV + 8 * gridV) ** 1.5 + (noise[drawn++ % noise.length] ?? 0);
      return sampled(noisy, grids, plates);
    });
  const share = fc.double({ min: 0, max: 1, noNaN: true });

  test('never leaves the range of the four points around it, however noisy they are', () => {
    fc.assert(
      fc.property(family, share, share, share, share, (traced, gridShare, plateShare, j, k) => {
        const device = tracedDevice(traced);
        const gridIndex = Math.floor(gridShare * 0.999 * (traced.curves.length - 1));
        const [low, high] = traced.curves.slice(gridIndex, gridIndex + 2);
        if (!low || !high) throw new Error('a family has two curves');
        const plateIndex = Math.floor(plateShare * 0.999 * (low.plateV.length - 1));
        const [from = 0, to = 0] = low.plateV.slice(plateIndex, plateIndex + 2);
        const around = [low, high].flatMap(({ plateA }) => plateA.slice(plateIndex, plateIndex + 2));
        const gridV = low.gridV + j * (high.gridV - low.gridV);
        const found = device.plateCurrent(at(from + k * (to - from), gridV));
        expect(found).toBeGreaterThanOrEqual(Math.min(...around) - 1e-15); // the last digit of a sum
        expect(found).toBeLessThanOrEqual(Math.max(...around) + 1e-15);
      }),
      { numRuns: 500, seed: 1980 },
    );
  });

  test('rises with plate voltage and with grid voltage where all the points do', () => {
    const device = tracedDevice(
      sampled(modelCurrent, [-100, -75, -55, -30, 0], [0, 30, 100, 150, 300, 420, 500]),
    );
    fc.assert(
      fc.property(share, share, share, share, (a, b, c, d) => {
        const [plate, more] = [500 * Math.min(a, b), 500 * Math.max(a, b)];
        const [grid, higher] = [-100 * Math.max(c, d), -100 * Math.min(c, d)];
        const first = device.plateCurrent(at(plate, grid));
        expect(device.plateCurrent(at(more, grid))).toBeGreaterThanOrEqual(first - 1e-15);
        expect(device.plateCurrent(at(plate, higher))).toBeGreaterThanOrEqual(first - 1e-15);
      }),
      { numRuns: 500, seed: 17 },
    );
  });

  test('gives the traced points themselves', () => {
    const device = tracedDevice(wide);
    for (const { gridV, plateV, plateA } of wide.curves) {
      for (const [k, voltage] of plateV.entries()) {
        expect(device.plateCurrent(at(voltage, gridV))).toBeCloseTo(plateA[k] ?? 0, 14); // rounding
      }
    }
  });

  test('follows the smooth curves it was sampled from, the better the closer the points', () => {
    const worst = (step: number, gridStep: number) => {
      const device = tracedDevice(sampled(modelCurrent, steps(-120, 0, gridStep), steps(0, 480, step)));
      const errors = steps(-117, -3, 6).flatMap((gridV) =>
        steps(13, 473, 23).map((plateV) =>
          Math.abs(device.plateCurrent(at(plateV, gridV)) - modelCurrent(plateV, gridV)),
        ),
      );
      return Math.max(...errors);
    };
    const coarse = worst(40, 20);
    const fine = worst(20, 10);
    // Slopes of three points are good to the square of the spacing, the cubic then to its cube: halving the
    // spacing leaves an eighth, a quarter where a slope is limited. Largest current here about 1.1 A.
    expect(fine).toBeLessThan(coarse / 4);
    expect(fine).toBeLessThan(3e-3); // 0.3 % of the largest current
  });

  test('leads a curve that begins above 0 V to no current at 0 V', () => {
    const device = tracedDevice(sampled((plateV) => plateV / 1000, [-10, 0], [50, 100]));
    expect(device.plateCurrent(at(0, -5))).toBe(0);
    expect(device.plateCurrent(at(25, -5))).toBeCloseTo(0.025, 12); // a straight line stays straight
  });
});

describe('outside the traced curves', () => {
  const device = tracedDevice(
    sampled((plateV, gridV) => Math.max(0, plateV + 5 * gridV) / 1000, [-20, -10, 0], [0, 100, 200]),
  );

  test.each([
    ['beyond the last voltage', 201, -5, -1],
    ['above the highest grid voltage', 50, 2, -2],
    ['below the lowest grid voltage', 150, -23, -3],
    ['inside', 150, -5, 5],
  ])('the margin says so: %s', (_, plateV, gridV, margin) => {
    expect(device.margin?.(at(plateV, gridV))).toBeCloseTo(margin, 12);
  });

  test('values are held, not extrapolated', () => {
    expect(device.plateCurrent(at(500, -10))).toBe(device.plateCurrent(at(200, -10)));
    expect(device.plateCurrent(at(150, 5))).toBe(device.plateCurrent(at(150, 0)));
  });

  test('below a curve without current there is none, and that is known', () => {
    expect(device.plateCurrent(at(90, -40))).toBe(0);
    expect(device.margin?.(at(90, -40))).toBe(40); // up to the highest curve
  });

  test('the border between curves of different length is the line that joins their ends', () => {
    const uneven = tracedDevice(
      tracedFamily('u', {
        gridV: [-10, -10, 0, 0],
        plateV: [0, 200, 0, 100],
        plateA: [0, 0.02, 0, 0.03],
        screenA: null,
      }),
    );
    expect(uneven.margin?.(at(150, -5))).toBeCloseTo(0, 12);
    expect(uneven.margin?.(at(151, -5))).toBeCloseTo(-1, 12);
    expect(uneven.plateCurrent(at(150, -5))).toBeCloseTo(0.025, 12); // half way between the ends
  });
});

describe('a stage on traced curves', () => {
  test('agrees with the model that the curves were sampled from', () => {
    const [traced, modelled] = [sheetOf(stage), sheetOf(singleEnded)];
    // Error of the interpolation at spacings of 20 V and 10 V; distortion is a small difference of currents.
    expect(offBy(traced.operatingPoint?.plateA ?? 0, modelled.operatingPoint?.plateA ?? 0)).toBeLessThan(
      2e-3,
    );
    expect(offBy(traced.atLoad?.powerW ?? 0, modelled.atLoad?.powerW ?? 0)).toBeLessThan(5e-3);
    expect(offBy(traced.atLoad?.thdRatio ?? 0, modelled.atLoad?.thdRatio ?? 0)).toBeLessThan(2e-2);
    expect(traced.modelSource).toBeNull();
    expect(traced.curvesFrom).toBe('sampled.csv');
    expect(explanationsOf(traced)).toContain('nothing is extrapolated beyond them');
  });

  test('ends its swing where the curves end, and stays inside with rectification included', () => {
    const narrow = sampled(modelCurrent, steps(-160, 0, 10), steps(0, 400, 20));
    const sheet = sheetOf({ ...stage, curves: narrow });
    const { atLoad } = sheet;
    expect(explanationsOf(sheet)).toMatch(
      /The swing leaves the traced curves at (39\d|400) V on the plate with −93\.0 V/,
    );
    expect(atLoad?.limitedBy).toBe('traced curves');
    expect(atLoad?.peakPlateV).toBeLessThanOrEqual(400 + 1e-5); // the tolerance of the border
    expect(atLoad?.peakPlateV).toBeGreaterThan(396); // no more than a hundredth is given away
    const shallow = sampled(modelCurrent, steps(-90, 0, 10), steps(0, 800, 20));
    const onGrid = sheetOf({ ...stage, curves: shallow }).atLoad;
    expect(onGrid?.limitedBy).toBe('traced curves');
    expect(onGrid?.driveV).toBeCloseTo(29, 1); // from −61 V down to −90 V
  });

  test('has no figures at a described drive that leaves the curves', () => {
    const curves = sampled(modelCurrent, steps(-90, 0, 10), steps(0, 800, 20));
    const sheet = sheetOf({ ...stage, curves, driveV: 40 });
    expect(sheet.atLoad).toBeNull();
    expect(sheet.absent['atLoad']?.replaceAll('\u00a0', ' ')).toBe(
      'A drive of 40.0 V peak leaves the traced curves, and nothing is extrapolated.',
    );
    expect(sheetOf({ ...stage, curves, driveV: 28 }).atLoad?.limitedBy).toBe('drive');
  });

  test('of a type that is not in the data has no ratings, and says so', () => {
    const sheet = sheetOf({ ...stage, device: 'PX99' });
    expect(sheet.limits.every(({ limit, absent }) => limit === null && absent !== undefined)).toBe(true);
    expect(sheet.absent['modelFit']).toContain('No model of the PX99');
  });

  test('of a pentode without traced screen current judges no screen', () => {
    const own = deviceOf(tube('EL34'), 'pentode');
    const current = (plateV: number, gridV: number) => own.plateCurrent({ plateV, screenV: 265, gridV });
    const sheet = sheetOf({ ...pentode, curves: sampled(current, steps(-40, 0, 4), steps(0, 800, 10)) });
    expect(sheet.limits.map(({ name }) => name)).not.toContain('screen dissipation');
    expect(sheet.operatingPoint?.screenA).toBeNull();
    expect(sheet.absent['screenA']).toMatch(/was not traced/);
    expect(sheet.modelFit?.rmsRatio).toBeLessThan(1e-12); // the same function
  });

  const flat = (name: string, points: Partial<Parameters<typeof tracedFamily>[1]>) =>
    tracedFamily(name, {
      gridV: [0, 0, -9, -9],
      plateV: [0, 9, 0, 9],
      plateA: [0, 1, 0, 1],
      screenA: null,
      ...points,
    });
  test.each([
    ['a single grid voltage', flat('a', { gridV: [0, 0, 0, 0] }), {}, 'load/traced-curves'],
    ['a single plate voltage', flat('b', { plateV: [5, 5, 5, 9] }), {}, 'load/traced-curves'],
    ['no current', flat('c', { plateA: [0, 0, 0, 0] }), {}, 'load/traced-curves'],
    ['a current below zero', flat('d', { plateA: [0, 1, 0, -0.1] }), {}, 'load/traced-curves'],
    ['a current that is no number', flat('e', { plateA: [0, 1, 0, Number.NaN] }), {}, 'load/traced-curves'],
    [
      'distributed load',
      wide,
      { device: 'EL34', connection: 'distributed-load', tapRatio: 0.4 },
      'load/connection',
    ],
    ['a rest outside', wide, { plateV: 900 }, 'load/outside-curves'],
  ] as const)('is a fault with %s', (_, curves, change, rule) => {
    expect(faultsOf({ ...stage, ...change, curves })).toContainEqual([rule, 'stages.0.curves']);
  });
});

describe('the model against traced curves', () => {
  const stronger = sampled(
    (plateV, gridV) => 1.25 * modelCurrent(plateV, gridV),
    steps(-100, 0, 20),
    steps(0, 400, 40),
  );

  test('a specimen that draws a quarter more: the model is a fifth low everywhere, and 1.25 mends it', () => {
    const fit = fitOfModel(model, stronger, 0);
    expect(fit?.rmsRatio).toBeCloseTo(0.2, 12); // 1/1.25 − 1, rounding
    expect(fit?.largestRatio).toBeCloseTo(-0.2, 12);
    expect(fit?.currentFactor).toBeCloseTo(1.25, 12);
    expect(fit?.rmsRatioWithFactor).toBeCloseTo(0, 12);
  });

  test('counts the points from a twentieth of the largest current', () => {
    const all = stronger.curves.flatMap(({ plateA }) => plateA);
    const counted = all.filter((current) => current >= Math.max(...all) / 20);
    expect(fitOfModel(model, stronger, 0)?.points).toBe(counted.length);
    expect(counted.length).toBeLessThan(all.length);
  });

  test('says where it is worst', () => {
    const bent = sampled(
      (plateV, gridV) => modelCurrent(plateV, gridV) * (plateV === 200 && gridV === -20 ? 0.8 : 1),
      steps(-100, 0, 20),
      steps(0, 400, 40),
    );
    const fit = fitOfModel(model, bent, 0);
    expect(fit?.largestAt).toEqual({ plateV: 200, gridV: -20 });
    expect(fit?.largestRatio).toBeCloseTo(0.25, 12); // 1/0.8 − 1
  });
});
