import { describe, expect, test } from 'vitest';
import { plateCurrent, type TubeStageDescription } from '../../src/load/index.ts';
import { explanationsOf, faultsOf, offBy, pentode, sheetOf, singleEnded, tube } from './support-devices.ts';

const at = { plateV: 300, screenV: 0, gridV: -61.3 };
const modelA = plateCurrent(tube('300B'), 'triode', at);
const measured = { plateA: 0.062, cathodeV: 61.3, plateV: null, rescale: false };

describe('a measured current', () => {
  test('is compared with the model at the measured grid voltage, and changes nothing', () => {
    const sheet = sheetOf({ ...singleEnded, measured });
    expect(sheet.measured).toMatchObject({
      plateA: 0.062,
      rescaled: false,
      at: { plateV: 300, gridV: -61.3 },
    });
    expect(offBy(sheet.measured?.modelA ?? 0, modelA)).toBeLessThan(1e-12); // the same call
    expect(offBy(sheet.measured?.factor ?? 0, 0.062 / modelA)).toBeLessThan(1e-12);
    expect(sheet.operatingPoint).toEqual(sheetOf(singleEnded).operatingPoint);
    expect(explanationsOf(sheet)).toMatch(
      /this tube draws 1\.09 times as much\. The figures are those of the model as it is/,
    );
  });

  test('rescales every current of the model where asked, and the sheet says by how much', () => {
    const sheet = sheetOf({ ...singleEnded, measured: { ...measured, rescale: true } });
    const plain = sheetOf(singleEnded);
    const factor = 0.062 / modelA;
    expect(
      offBy(sheet.operatingPoint?.plateA ?? 0, factor * (plain.operatingPoint?.plateA ?? 0)),
    ).toBeLessThan(1e-12);
    expect(offBy(sheet.operatingPoint?.rpOhm ?? 0, (plain.operatingPoint?.rpOhm ?? 0) / factor)).toBeLessThan(
      1e-9,
    );
    expect(explanationsOf(sheet)).toMatch(/All figures are those of the model with every current multiplied/);
  });

  test('on a cathode resistor, the rescaled stage comes to rest at the measured current', () => {
    const bias = { kind: 'cathode-resistor', ohm: 150, bypassed: true } as const;
    for (const description of [
      { ...singleEnded, bias: { ...bias, ohm: 1000 } },
      { ...pentode, bias },
      { ...pentode, bias: { ...bias, ohm: 75 }, count: 2 },
    ]) {
      const plateA = 0.07;
      const sheet = sheetOf({
        ...description,
        measured: { plateA, cathodeV: null, plateV: null, rescale: true },
      });
      const count = 'count' in description ? 2 : 1;
      // Two roots, each to 1e-12 of its own value.
      expect(offBy(sheet.operatingPoint?.plateA ?? 0, count * plateA)).toBeLessThan(1e-9);
    }
  });

  test.each([
    [0.49, true],
    [0.51, false],
    [1.95, false],
    [2.05, true],
  ])('%s times that of the model warns: %s', (factor, warned) => {
    const faults = faultsOf({ ...singleEnded, measured: { ...measured, plateA: factor * modelA } });
    expect(faults.some(([rule]) => rule === 'load/measured-current')).toBe(warned);
  });

  test('is not compared where the model draws nothing', () => {
    const description: TubeStageDescription = { ...singleEnded, measured: { ...measured, cathodeV: 2000 } };
    expect(faultsOf(description)).toContainEqual(['load/measured-current', 'stages.0.measured']);
    expect(sheetOf(description).measured).toBeNull();
    expect(sheetOf(description).absent['measured']).toMatch(/cannot be compared/);
  });

  test('that no tube draws is a fault at its key', () => {
    expect(faultsOf({ ...singleEnded, measured: { ...measured, plateA: Number.NaN } })).toContainEqual([
      'load/out-of-range',
      'stages.0.measured.plateCurrent',
    ]);
  });
});
