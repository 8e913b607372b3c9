import { describe, expect, test } from 'vitest';
import { loadSheet, type TubeStageDescription, type TubeStageSheet } from '../../src/load/index.ts';
import { offBy, pentode, resistanceCoupled, singleEnded, tubes } from './support.ts';

function sheetOf(stage: TubeStageDescription): TubeStageSheet {
  const [sheet] = loadSheet([stage], null, tubes).stages;
  if (sheet?.topology !== 'single-ended' && sheet?.topology !== 'resistance-coupled')
    throw new Error('no tube');
  return sheet;
}

const atFullDrive = ({ limits }: TubeStageSheet, name: string) =>
  limits.find((row) => row.name === name && row.when === 'at full drive')?.value ?? Number.NaN;

/** The same cycle, summed in another order. */
const exact = 1e-9;

describe('limits of a single-ended stage at full drive', () => {
  test('are the means of the cycle that the figures at the load are made of', () => {
    const sheet = sheetOf(singleEnded);
    expect(offBy(atFullDrive(sheet, 'plate dissipation'), sheet.atLoad?.balance.plateW ?? 0)).toBeLessThan(
      exact,
    );
    expect(offBy(atFullDrive(sheet, 'cathode current'), sheet.atLoad?.averagePlateA ?? 0)).toBeLessThan(
      exact,
    );
  });

  test('count the screen of a pentode', () => {
    const sheet = sheetOf(pentode);
    const { averagePlateA = 0, averageScreenA, screenW } = sheet.atLoad ?? {};
    expect(offBy(atFullDrive(sheet, 'screen dissipation'), screenW ?? 0)).toBeLessThan(exact);
    expect(offBy(atFullDrive(sheet, 'cathode current'), averagePlateA + (averageScreenA ?? 0))).toBeLessThan(
      exact,
    );
  });

  test('are those of each tube where several work in parallel, plate and screen apart where they are strapped', () => {
    const strapped: TubeStageDescription = { ...pentode, connection: 'triode', screenV: null };
    const one = sheetOf(strapped);
    const two = sheetOf({ ...strapped, count: 2, loadOhm: 1000 });
    expect(offBy(atFullDrive(two, 'plate dissipation'), atFullDrive(one, 'plate dissipation'))).toBeLessThan(
      exact,
    );
    const together = atFullDrive(one, 'plate dissipation') + atFullDrive(one, 'screen dissipation');
    expect(offBy(together, one.atLoad?.balance.plateW ?? 0)).toBeLessThan(exact);
  });

  test('are left to output stages', () => {
    const sheet = sheetOf({ ...resistanceCoupled, plateV: 200 });
    expect(sheet.limits.every(({ when }) => when === 'at rest')).toBe(true);
  });
});
