import { describe, expect, test } from 'vitest';
import { loadSheet, type TypicalOperation } from '../../src/load/index.ts';
import { explainDisagreement } from '../../src/load/rules/disagreement.ts';
import { printedFor, sheetLoads } from '../../src/load/rules/sheet-loads.ts';
import { offBy, pentode, singleEnded, tubeSheet, tubes } from './support.ts';

const row: TypicalOperation = {
  use: 'single-ended class A',
  plateV: 250,
  screenV: 250,
  gridV: -14,
  plateA: 0.072,
  screenA: 0.005,
  loadOhm: 2500,
  powerW: 6.5,
  distortionRatio: 0.1,
  source: 'a sheet',
  status: 'memory',
};
const use = { use: 'single-ended class A', triode: false, count: 1, nearV: 250 } as const;
const exact = 1e-12; // rounding of a few products

/** Loads of the two conversions for voltages and currents in some ratio to those of the row. */
function moved(voltages: number, currents: number, screens = voltages) {
  const point = { plateV: 250 * voltages, plateA: 0.072 * currents, screenV: 250 * screens };
  const loads = sheetLoads([row], point, use);
  const of = (short: string) => loads.find((one) => one.short === short);
  return { printed: of('sheet 250\u00a0V'), law: of('sheet by 3/2'), geometry: of('sheet by U/I') };
}

describe('a data-sheet load', () => {
  // Space-charge law and geometry of the load line: algebra.
  test.each([0.7, 1, 1.4, 2])('at %d times every voltage falls with the root by the law', (factor) => {
    expect(offBy(moved(factor, factor ** 1.5).law?.loadOhm ?? 0, 2500 / Math.sqrt(factor))).toBeLessThan(
      exact,
    );
  });

  test.each([0.7, 1, 1.4, 2])(
    'at %d times the voltage and the same dissipation rises with the square',
    (factor) => {
      expect(offBy(moved(factor, 1 / factor).geometry?.loadOhm ?? 0, 2500 * factor ** 2)).toBeLessThan(exact);
    },
  );

  test('by both conversions is the same where the current followed the law', () => {
    const { law, geometry } = moved(1.3, 1.3 ** 1.5);
    expect(offBy(law?.loadOhm ?? 0, geometry?.loadOhm ?? 1)).toBeLessThan(exact);
  });

  test('is not moved by the law where the screen did not move with the plate', () => {
    const { law, geometry } = moved(1.6, 1, 1);
    expect(law).toMatchObject({ loadOhm: null });
    expect(law?.basis).toContain('do not stand at one ratio');
    expect(geometry?.loadOhm).toBeCloseTo(4000, 6);
  });

  test('is printed as the sheet has it, with its source and status', () => {
    expect(moved(1, 1).printed).toMatchObject({
      loadOhm: 2500,
      source: 'a sheet (from memory)',
      status: 'published',
      basis:
        'printed for 250\u00a0V at the plate, 250\u00a0V at the screen, −14.0\u00a0V at the grid; 6.50\u00a0W there',
    });
  });

  test('is shared by tubes in parallel', () => {
    const loads = sheetLoads([row], { plateV: 250, plateA: 0.072, screenV: 250 }, { ...use, count: 2 });
    expect(loads.map(({ loadOhm }) => loadOhm)).toEqual([1250, 1250, 1250]);
  });

  test('of another connection or use is not taken', () => {
    const point = { plateV: 250, plateA: 0.072, screenV: 250 };
    expect(sheetLoads([row], point, { ...use, triode: true })).toEqual([]);
    expect(sheetLoads([row], point, { ...use, use: 'push-pull class AB1' })).toEqual([]);
    expect(printedFor({ device: 'EL34', connection: 'distributed-load' }, tubes)).toEqual([]);
  });
});

describe('what the rules disagree about', () => {
  const sheetOf = (stage: typeof singleEnded) => tubeSheet(loadSheet([stage], null, tubes).stages[0]);

  test('is told with both conversions where they move apart', () => {
    const stage = { ...pentode, plateV: 320, screenV: 339, bias: { kind: 'current', plateA: 0.07 } as const };
    const { explanation, candidates } = sheetOf({ ...stage, loadOhm: 3000 });
    const at = (short: string) => candidates.find((one) => one.short === short)?.loadOhm ?? 0;
    // 320 V is 1.28 times the sheet's 250 V, 70 mA is 0.7 times its 100 mA.
    expect(offBy(at('sheet by 3/2'), 2000 / Math.sqrt(1.28))).toBeLessThan(1e-9);
    expect(offBy(at('sheet by U/I'), (2000 * 1.28) / 0.7)).toBeLessThan(1e-6); // tolerance of the operating point
    const told = explanation.join('\n');
    expect(told).toMatch(
      /The rules ask for loads from .* times apart; the load of this stage is among them\./,
    );
    expect(told).toContain('becomes 1.77\u00a0kΩ or 3.66\u00a0kΩ, 2.1 times apart');
  });

  test('is nothing where only one rule has an answer', () => {
    const [only] = sheetOf(singleEnded).candidates;
    expect(explainDisagreement(only ? [only] : [], 3400)).toEqual([]);
  });

  test('says where the load of the stage stands', () => {
    const { candidates } = sheetOf(singleEnded);
    const first = (ohm: number) => explainDisagreement(candidates, ohm)[0];
    expect(first(100)).toContain('is below all of them');
    expect(first(1e5)).toContain('is above all of them');
    expect(explainDisagreement(candidates, null)[0]).not.toContain('this stage');
  });
});
