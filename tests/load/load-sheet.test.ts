import { describe, expect, test } from 'vitest';
import { loadSheet, type StageDescription, type SupplyDescription } from '../../src/load/index.ts';
import { offBy, pentode, resistanceCoupled, singleEnded, tubeSheet, tubes } from './support.ts';

const supply: SupplyDescription = {
  plateV: 330,
  currentA: 0.06,
  sourceResistanceOhm: 120,
  mainsHz: 50,
  offLoadV: null,
  capacitors: [{ capacitanceF: 100e-6, ratedV: 450, workingV: 330, bleederOhm: 220e3 }],
};

const problemsOf = (stage: StageDescription, withSupply: SupplyDescription | null = null) =>
  loadSheet([stage], withSupply, tubes).problems;

describe('a single-ended output stage', () => {
  const { stages, problems } = loadSheet([singleEnded], supply, tubes);
  const sheet = tubeSheet(stages[0]);

  test('has every part of the sheet', () => {
    expect(problems).toEqual([]);
    expect(sheet.operatingPoint).toMatchObject({ plateV: 300, gridV: -61, screenV: null, screenA: null });
    expect(offBy(sheet.operatingPoint?.plateA ?? 0, 0.058379)).toBeLessThan(1e-4); // five digits stated
    expect(sheet.atLoad?.harmonics.map(({ order }) => order)).toEqual([2, 3, 4, 5, 6, 7]);
    expect(sheet.sweep.length).toBeGreaterThanOrEqual(30);
    expect(sheet.candidates.length).toBeGreaterThanOrEqual(4);
    expect(sheet.limits.map(({ name, when }) => `${name} ${when}`)).toEqual([
      'plate dissipation at rest',
      'plate voltage at rest',
      'cathode current at rest',
      'plate dissipation at full drive',
      'cathode current at full drive',
    ]);
    expect(sheet.absent).toEqual({});
  });

  test('swings its plate to well above the voltage at rest', () => {
    const peak = sheet.atLoad?.peakPlateV ?? 0;
    expect(peak).toBeGreaterThan(1.5 * 300);
    expect(peak).toBeLessThan(2 * 300);
  });

  test('explains itself with figures of the sheet', () => {
    const text = sheet.explanation.join(' ').replaceAll('\u00a0', ' ');
    expect(text).toContain('At rest the 300B draws 58.4 mA at 300 V with −61.0 V at the grid');
    expect(text).toContain('17.5 W at the plate, 44 % of the rating');
    expect(text).toContain('the swing ends where the grid reaches 0 V');
    expect(text).toMatch(/The second harmonic leads at 3\.\d+ %, before the third/);
    expect(text).toContain('The plate swings up to 483 V to the cathode, 1.61 times its voltage at rest.');
    expect(text).toContain('the load of this stage is among them');
    expect(text).not.toMatch(/NaN|null|undefined|\bsafe\b/);
  });
});

describe('a pentode stage', () => {
  const { stages } = loadSheet([pentode], null, tubes);

  test('gives screen voltage and current, and says what its model leaves out', () => {
    expect(tubeSheet(stages[0]).operatingPoint?.screenV).toBe(265);
    expect(offBy(tubeSheet(stages[0]).operatingPoint?.screenA ?? 0, 8.206e-3)).toBeLessThan(1e-4); // four digits stated
    expect(tubeSheet(stages[0]).explanation.join(' ')).toContain(
      'screen dissipation at full drive is too low',
    );
  });

  test('in triode connection has no screen of its own, and lets more current through its load', () => {
    const strapped = tubeSheet(
      loadSheet([{ ...pentode, connection: 'triode', screenV: null }], null, tubes).stages[0],
    );
    expect(strapped.operatingPoint).toMatchObject({ screenV: null, screenA: null });
    expect(strapped.operatingPoint?.rpOhm).toBeLessThan(2000);
  });
});

describe('a resistance-coupled stage', () => {
  test("solves its plate from the supply (Steck's 12AX7: 220.97 V) and has gains instead of candidates", () => {
    const sheet = tubeSheet(loadSheet([resistanceCoupled], supply, tubes).stages[0]);
    expect(offBy(sheet.operatingPoint?.plateV ?? 0, 220.97)).toBeLessThan(5e-5); // five digits stated
    expect(sheet.atLoad?.loadOhm).toBe(100e3);
    expect(sheet.candidates).toEqual([]);
    expect(offBy(sheet.gain?.bypassed ?? 0, 61.7)).toBeLessThan(1e-3); // three digits stated
    expect(offBy(sheet.gain?.unbypassed ?? 0, 31.9)).toBeLessThan(1e-3);
    expect(Math.max(...sheet.sweep.map(({ loadOhm }) => loadOhm))).toBeLessThanOrEqual(100e3);
  });

  test('takes its own supply voltage before the common one', () => {
    const sheets = loadSheet([{ ...resistanceCoupled, supplyV: 330 }], { ...supply, plateV: 500 }, tubes);
    expect(offBy(tubeSheet(sheets.stages[0]).operatingPoint?.plateV ?? 0, 220.97)).toBeLessThan(5e-5); // five digits stated
  });

  test('has the next grid leak across its plate resistor', () => {
    const sheet = tubeSheet(
      loadSheet([{ ...resistanceCoupled, nextGridLeakOhm: 470e3 }], supply, tubes).stages[0],
    );
    expect(sheet.atLoad?.loadOhm).toBeCloseTo((100e3 * 470e3) / 570e3, 6);
  });
});

describe('faults of a description have the path of their value', () => {
  test.each<[string, StageDescription, string, (string | number)[]]>([
    ['an unknown device', { ...singleEnded, device: '300C' }, 'load/unknown-device', ['device']],
    [
      'a name that is no device',
      { ...singleEnded, device: 'constructor' },
      'load/unknown-device',
      ['device'],
    ],
    ['a triode as a pentode', { ...singleEnded, connection: 'pentode' }, 'load/connection', ['connection']],
    ['a pentode without screen voltage', { ...pentode, screenV: null }, 'load/missing-value', ['screen']],
    ['no plate voltage anywhere', { ...singleEnded, plateV: null }, 'load/missing-value', ['plate']],
    [
      'no plate resistor',
      { ...resistanceCoupled, plateV: 200, plateResistorOhm: null },
      'load/missing-value',
      ['plateResistor'],
    ],
    ['a negative load', { ...singleEnded, loadOhm: -8 }, 'load/out-of-range', ['load']],
    [
      'a plate voltage that is no number',
      { ...singleEnded, plateV: Number.NaN },
      'load/out-of-range',
      ['plate'],
    ],
    [
      'a positive bias',
      { ...singleEnded, bias: { kind: 'grid', gridV: 61 } },
      'load/positive-grid',
      ['bias'],
    ],
    [
      'a bias that cuts off',
      { ...singleEnded, bias: { kind: 'grid', gridV: -300 } },
      'load/no-operating-point',
      ['bias'],
    ],
    [
      'a load above the plate resistor',
      { ...resistanceCoupled, plateV: 200, loadOhm: 200e3 },
      'load/out-of-range',
      ['load'],
    ],
  ])('%s', (_, stage, rule, path) => {
    const [problem, ...more] = problemsOf(stage);
    expect(more).toEqual([]);
    expect(problem).toMatchObject({ rule, path: ['stages', 0, ...path] });
    expect(problem?.severity ?? 'error').toBe('error');
    expect(problem?.message).toMatch(/^.+\.$/);
    expect(problem?.hint).toMatch(/[.?]$/);
  });

  test('a misspelt type is answered with the nearest', () => {
    expect(problemsOf({ ...singleEnded, device: '12ax7a' })[0]?.hint).toContain('12AX7');
  });

  test('a stage with an error has a sheet of nulls with the reason, and the others are computed', () => {
    const { stages } = loadSheet([{ ...singleEnded, device: '300C' }, singleEnded], null, tubes);
    expect(stages[0]).toMatchObject({ operatingPoint: null, atLoad: null, sweep: [] });
    expect(tubeSheet(stages[0]).absent.operatingPoint).not.toBe('');
    expect(tubeSheet(stages[1]).operatingPoint).not.toBeNull();
  });

  test('a supply fault leads to the capacitor', () => {
    const [first] = supply.capacitors;
    if (!first) throw new Error('no capacitor');
    const bad = { ...supply, capacitors: [first, { ...first, capacitanceF: -1 }] };
    const { problems, supply: sheet } = loadSheet([singleEnded], bad, tubes);
    expect(problems[0]?.path).toEqual(['supply', 'capacitors', 1, 'capacitance']);
    expect(sheet).toBeNull();
  });
});

describe('warnings', () => {
  test('no load: no figures at a load, but a range of loads around plate voltage over current', () => {
    const { stages, problems } = loadSheet([{ ...singleEnded, loadOhm: null }], null, tubes);
    expect(problems).toEqual([expect.objectContaining({ rule: 'load/no-load', severity: 'warning' })]);
    expect(tubeSheet(stages[0]).atLoad).toBeNull();
    expect(tubeSheet(stages[0]).absent.atLoad).toBe('No load is stated.');
    expect(tubeSheet(stages[0]).sweep).toHaveLength(33);
    expect(tubeSheet(stages[0]).sweep[16]?.loadOhm).toBeCloseTo(300 / 0.058379, -1); // five digits stated
  });

  test('a drive beyond 0 V at the grid', () => {
    expect(problemsOf({ ...singleEnded, driveV: 65 })).toEqual([
      expect.objectContaining({ rule: 'load/grid-current', path: ['stages', 0, 'drive'] }),
    ]);
    expect(problemsOf({ ...singleEnded, driveV: 60 })).toEqual([]);
  });

  test('a bias of 0 V: the reason stands in place of the figures', () => {
    const { stages } = loadSheet(
      [{ ...singleEnded, plateV: 100, bias: { kind: 'grid', gridV: 0 } }],
      null,
      tubes,
    );
    expect(tubeSheet(stages[0]).atLoad).toBeNull();
    expect(tubeSheet(stages[0]).absent.atLoad).toBe('The bias leaves the grid no swing.');
  });

  test('a capacitor that can see more than its rating, and a supply without a bleeder', () => {
    const bare = { capacitanceF: 1e-4, ratedV: 350, workingV: null, bleederOhm: null };
    const { problems } = loadSheet([singleEnded], { ...supply, capacitors: [bare] }, tubes);
    expect(problems).toEqual([
      expect.objectContaining({
        rule: 'load/capacitor-rating',
        severity: 'warning',
        path: ['supply', 'capacitors', 0, 'ratedVoltage'],
      }),
      expect.objectContaining({ rule: 'load/no-bleeder', severity: 'warning' }),
    ]);
  });
});
