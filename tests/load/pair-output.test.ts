import { describe, expect, test } from 'vitest';
import {
  deviceOf,
  loadSheet,
  type OutputTransformer,
  type PushPullDescription,
  type PushPullSheet,
} from '../../src/load/index.ts';
import { real } from '../../src/load/output/complex.ts';
import { complexPeriod } from '../../src/load/output/complex-period.ts';
import { pairPeriod } from '../../src/load/push-pull/pair-period.ts';
import { pairDrive } from '../../src/load/push-pull/push-pull-drive.ts';
import { pairAtLoad } from '../../src/load/push-pull/push-pull-signal.ts';
import { type PairAtRest, sidesOf } from '../../src/load/push-pull/push-pull-stage.ts';
import { linearTriode, offBy, stageAt, tube, tubes } from './support.ts';
import { sampled, steps } from './support-devices.ts';

const transformer: OutputTransformer = {
  name: 'A transformer',
  turnsRatio: 25,
  nominalOhm: 8,
  primaryOhm: 250,
  secondaryOhm: 0.4,
  primaryH: 80,
  leakageH: 0.02,
  ratedPower: { watt: 30, frequencyHz: 30 },
  ratedDirectA: null,
};

const pair: PushPullDescription = {
  id: 'output',
  topology: 'push-pull',
  device: '300B',
  connection: 'triode',
  plateV: 350,
  supplyV: null,
  screenV: null,
  bias: { kind: 'grid', gridV: -74 },
  windingOhm: null,
  loadOhm: null,
  output: { transformer, primaryShare: 1, speakerOhm: 8, sweep: null },
  driveV: null,
  powerW: null,
  mismatchRatio: 0,
};

const stated: PushPullDescription = { ...pair, loadOhm: 5000, output: null };

function sheetOf(description: PushPullDescription): PushPullSheet {
  const { stages, problems } = loadSheet([description], null, tubes);
  expect(problems.filter(({ severity }) => severity !== 'warning')).toEqual([]);
  const [sheet] = stages;
  if (sheet?.topology !== 'push-pull') throw new Error('no sheet of a pair');
  return sheet;
}

const problemsOf = (description: PushPullDescription) =>
  loadSheet([description], null, tubes).problems.map(({ rule, path }) => [rule, path.join('.')]);

describe('a pair on a load by orders', () => {
  const device = deviceOf(tube('EL34'), 'pentode');
  const { rest } = stageAt(device, 375, -30, { screenV: 300 });
  const at = (mismatchRatio: number): PairAtRest => ({
    sides: sidesOf(device, mismatchRatio),
    alike: mismatchRatio === 0,
    rest,
    feedOhm: 60,
    cathodeOhm: 150,
  });

  test.each([0, 0.2])('of a resistance at every order is the pair on that resistance, %d apart', (apart) => {
    const driven = pairDrive(at(apart), 4000, 25);
    const expected = driven && pairAtLoad(at(apart), driven, 1);
    const period = complexPeriod(pairPeriod(at(apart), 25), () => real(1000));
    if (!expected || !period) throw new Error('nothing swings');
    const fundamental = period.currents[1]?.re ?? 0;
    // Both settle their averages to 1e-9 or better; 1 kΩ across half the primary are 4 kΩ from plate to plate.
    expect(offBy((fundamental ** 2 * 1000) / 2, expected.powerW)).toBeLessThan(1e-6);
    const third = Math.abs((period.currents[3]?.re ?? 0) / fundamental);
    expect(offBy(third, expected.harmonics[1]?.ratio ?? 0)).toBeLessThan(1e-5);
    expect(offBy((period.averages[0] ?? 0) + (period.averages[1] ?? 0), expected.averagePlateA)).toBeLessThan(
      1e-6,
    );
  });

  test('straight sides on a coil and a resistor follow the phasor 2·mu·E/(rp + 2R + 2jωL)', () => {
    const straight = linearTriode(4, 800);
    const { rest: point } = stageAt(straight, 250, -40);
    const linear = {
      sides: [straight, straight],
      alike: true,
      rest: point,
      feedOhm: 0,
      cathodeOhm: 0,
    } as const;
    const period = complexPeriod(pairPeriod(linear, 10), (order) => ({ re: 1000, im: order * 700 }));
    const size = 80 / Math.hypot(800 + 2000, 1400);
    expect(Math.hypot(period?.currents[1]?.re ?? 0, period?.currents[1]?.im ?? 0)).toBeCloseTo(size, 9); // solved to 1e-9
    expect(period?.currents[1]?.im).toBeLessThan(0);
  });
});

describe('a pair with an output transformer', () => {
  const sheet = sheetOf(pair);

  test('has the load through its windings, and half of the primary in each plate lead', () => {
    expect(sheet.atLoad?.loadOhm).toBeCloseTo(5500, 9); // 250 Ω, and 8.4 Ω times 625
    const alone = sheetOf({ ...stated, loadOhm: 5500, windingOhm: 125 });
    expect(sheet.atLoad?.powerW).toBe(alone.atLoad?.powerW);
  });

  test('loses 0.414 dB of its power in 250 Ω and 0.4 Ω at 25:1 (derived)', () => {
    expect(sheet.output?.lossDb).toBeCloseTo(0.414, 3); // three digits stated
    expect(offBy(sheet.output?.speakerW ?? 0, 0.90909 * (sheet.atLoad?.powerW ?? 0))).toBeLessThan(1e-5);
  });

  test('shows the loudspeaker both sides in series', () => {
    const { rpOhm } = sheet.operatingPoint ?? {};
    expect(sheet.output?.outputOhm).toBeCloseTo((2 * (rpOhm ?? 0) + 250) / 625 + 0.4, 9);
  });

  test('plays as much in the middle of the band as into the resistance, without even harmonics', () => {
    const middle = sheet.output?.realLoad?.rows.find(({ frequencyHz }) => Math.abs(frequencyHz - 632) < 5);
    expect(offBy(middle?.speakerW ?? 0, sheet.output?.speakerW ?? 0)).toBeLessThan(5e-3); // the inductances' share there
    expect(middle?.secondRatio).toBeLessThan(1e-9); // rounding
    expect(sheet.output?.realLoad?.unsolvedHz).toEqual([]);
  });

  test('leaves the core to the sine, and less of it with currents that differ', () => {
    expect(sheet.output?.core?.directShare).toBe(0);
    const unequal = sheetOf({ ...pair, mismatchRatio: 0.2 });
    const restA = unequal.operatingPoint?.plateA ?? 0;
    // Linkage of the rating: √2·√(30 W · 5 kΩ)/(2π · 30 Hz); of the unbalance: 80 H times half of 20 % of the current.
    const rated = (Math.SQRT2 * Math.sqrt(30 * 5000)) / (2 * Math.PI * 30);
    expect(offBy(unequal.output?.core?.directShare ?? 0, (80 * 0.1 * restA) / rated)).toBeLessThan(1e-6);
  });

  test('is at fault with a load beside it, and without either', () => {
    expect(problemsOf({ ...pair, loadOhm: 5000 })).toContainEqual(['load/contradiction', 'stages.0.load']);
    expect(problemsOf({ ...stated, loadOhm: null })).toContainEqual(['load/no-load', 'stages.0.load']);
  });
});

describe('a pair on traced curves', () => {
  const model = deviceOf(tube('300B'), 'triode');
  const current = (plateV: number, gridV: number) => model.plateCurrent({ plateV, screenV: 0, gridV });

  test('traced from the model gives what the model gives', () => {
    const curves = sampled(current, steps(-200, 0, 5), steps(0, 900, 10));
    const [traced, modelled] = [sheetOf({ ...stated, curves }), sheetOf(stated)];
    expect(offBy(traced.atLoad?.powerW ?? 0, modelled.atLoad?.powerW ?? 0)).toBeLessThan(5e-3); // interpolation
    expect(traced).toMatchObject({ curvesFrom: 'sampled.csv', modelSource: null });
    expect(traced.explanation.join(' ')).toContain('sampled.csv');
  });

  test('ends its swing where they end, and has no figures for a drive beyond', () => {
    const curves = sampled(current, steps(-200, 0, 5), steps(0, 420, 10));
    const sheet = sheetOf({ ...stated, curves });
    expect(sheet.atLoad?.limitedBy).toBe('traced curves');
    expect(sheet.atLoad?.peakPlateV).toBeLessThanOrEqual(420.001); // the border, to a millivolt
    expect(sheet.atLoad?.peakPlateV).toBeGreaterThan(410); // a drive is cut by 0.2 % at a time
    const beyond = sheetOf({ ...stated, curves, driveV: 70 });
    expect(beyond.atLoad).toBeNull();
    expect(beyond.absent['atLoad']).toContain('leaves the traced curves');
  });

  test('are a fault in distributed load', () => {
    const curves = sampled(current, steps(-200, 0, 5), steps(0, 900, 10));
    const tapped: PushPullDescription = {
      ...stated,
      device: 'EL34',
      connection: 'distributed-load',
      tapRatio: 0.4,
    };
    expect(problemsOf({ ...tapped, curves }).length).toBeGreaterThan(0);
  });
});
