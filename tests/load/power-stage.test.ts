import { describe, expect, test } from 'vitest';
import { atDistortion, atPower, loadSheet, overDrive, powerStage } from '../../src/load/index.ts';
import type { PushPullDescription, StageDescription } from '../../src/load/types.ts';
import { offBy, pentode, resistanceCoupled, singleEnded, tubeSheet, tubes } from './support.ts';

const context = { supply: null, tubes };

const pair: PushPullDescription = {
  ...{ id: 'output', topology: 'push-pull', device: 'EL34', connection: 'pentode', screenV: 350 },
  ...{ plateV: 350, supplyV: null, bias: { kind: 'grid', gridV: -31 }, windingOhm: null },
  ...{ loadOhm: 5000, driveV: null, powerW: null, mismatchRatio: 0 },
};

const output = {
  transformer: {
    ...{ name: 'A transformer', turnsRatio: 20, nominalOhm: 8, primaryOhm: 150, secondaryOhm: 0.4 },
    ...{ primaryH: null, leakageH: null, ratedPower: null, ratedDirectA: null },
  },
  primaryShare: 1,
  speakerOhm: 8,
  sweep: null,
};

function stageOf(description: StageDescription) {
  const stage = powerStage(description, context);
  if (!stage) throw new Error('no stage');
  return stage;
}

const second = (harmonics: { order: number; ratio: number }[] | undefined) =>
  harmonics?.find(({ order }) => order === 2)?.ratio ?? 0;

describe('a stage at full drive is that of its load sheet', () => {
  test.each([
    ['a triode', singleEnded],
    ['a pentode', pentode],
    ['a pair', pair],
  ])('%s', (_, description) => {
    const { stages } = loadSheet([description], null, tubes);
    const [sheet] = stages;
    const atLoad = sheet && 'atLoad' in sheet ? sheet.atLoad : null;
    if (!atLoad || !('powerW' in atLoad)) throw new Error('no figures at the load');
    const { full } = stageOf(description);
    // Both are solved alike; what is left is rounding.
    expect(offBy(full.powerW, atLoad.powerW)).toBeLessThan(1e-9);
    expect(offBy(full.thdRatio, atLoad.thdRatio)).toBeLessThan(1e-6);
  });

  test('the windings of a transformer take their share of the power', () => {
    const description = { ...singleEnded, loadOhm: null, output };
    const sheet = tubeSheet(loadSheet([description], null, tubes).stages[0]);
    expect(offBy(stageOf(description).full.powerW, sheet.output?.speakerW ?? 0)).toBeLessThan(1e-9);
    // n²R over the load: 400 · 8 of 400 · 8.4 + 150 Ω (equivalent circuit, derived).
    const share = (400 * 8) / (400 * 8.4 + 150);
    expect(offBy(sheet.output?.efficiency ?? 0, share)).toBeLessThan(1e-12);
  });
});

describe('a drive that is looked for', () => {
  test.each([
    ['a triode', singleEnded],
    ['a pair', pair],
  ])('of %s gives the power', (_, description) => {
    const stage = stageOf(description);
    for (const powerW of [0.01, 0.5, 0.9 * stage.full.powerW]) {
      // The drive is found to a millionth; power goes with its square.
      expect(offBy(atPower(stage, powerW)?.powerW ?? 0, powerW)).toBeLessThan(5e-6);
    }
    expect(atPower(stage, 1.01 * stage.full.powerW)).toBeNull();
    expect(atPower(stage, 0)).toBeNull();
  });

  test('of small signals halves the second harmonic at a quarter of the power', () => {
    const stage = stageOf(singleEnded);
    const [one, quarter] = [0.04, 0.01].map((powerW) => second(atPower(stage, powerW)?.harmonics));
    // The second goes with the amplitude in any smooth characteristic (power series, derived); terms of higher order
    // are a thousandth of it at 0.04 W.
    expect(offBy((one ?? 0) / (quarter ?? 1), 2)).toBeLessThan(2e-3);
  });

  test('is that at which distortion rises through a ratio', () => {
    const stage = stageOf(singleEnded);
    const found = atDistortion(stage, overDrive(stage), 0.01);
    expect(offBy(found?.thdRatio ?? 0, 0.01)).toBeLessThan(1e-5); // the drive to a millionth
    expect(found?.powerW).toBeLessThan(stage.full.powerW);
    expect(atDistortion(stage, overDrive(stage), 0.9)).toBeNull();
  });

  test('grows with the power, up to the full one', () => {
    const points = overDrive(stageOf(singleEnded));
    const powers = points.map(({ powerW }) => powerW);
    expect(powers).toEqual(powers.toSorted((a, b) => a - b));
    expect(points.at(-1)).toEqual(stageOf(singleEnded).full);
  });
});

test('a stage that delivers no power, and one that cannot be solved, has none', () => {
  expect(powerStage(resistanceCoupled, context)).toBeNull();
  expect(powerStage({ ...singleEnded, device: 'no such tube' }, context)).toBeNull();
  expect(powerStage({ ...singleEnded, loadOhm: null }, context)).toBeNull();
  expect(powerStage({ ...pair, device: 'no such tube' }, context)).toBeNull();
});
