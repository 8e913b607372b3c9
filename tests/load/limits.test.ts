import { describe, expect, test } from 'vitest';
import { deviceOf, loadSheet } from '../../src/load/index.ts';
import { limitsAtRest } from '../../src/load/stage/limits.ts';
import { pentode, stageAt, tube, tubes } from './support.ts';

const restOf = (type: string, plateV: number, gridV: number, screenV = 0) =>
  stageAt(deviceOf(tube(type), 'pentode'), plateV, gridV, { screenV }).rest;

const fixed = { bias: 'grid', strapped: false } as const;

describe('limits at rest', () => {
  test('a 300B at 300 V and −61 V stands at 17.5 W of its 40 W', () => {
    const [dissipation] = limitsAtRest(tube('300B'), restOf('300B', 300, -61), fixed);
    expect(dissipation).toMatchObject({
      name: 'plate dissipation',
      limit: 40,
      unit: 'W',
      over: false,
      status: 'seen',
    });
    expect(dissipation?.value).toBeCloseTo(17.51, 2); // 300 V times 58.379 mA
    expect(dissipation?.share).toBeCloseTo(0.438, 3);
    expect(dissipation?.source).toContain('data sheet');
  });

  test('a 300B may draw 70 mA with fixed bias and 100 mA on a cathode resistor', () => {
    const rest = { ...restOf('300B', 300, -61), plateA: 0.08 };
    const current = (bias: 'grid' | 'cathode-resistor') =>
      limitsAtRest(tube('300B'), rest, { bias, strapped: false }).find(
        ({ name }) => name === 'cathode current',
      );
    expect(current('grid')?.limit).toBe(0.07);
    expect(current('cathode-resistor')?.limit).toBe(0.1);
  });

  test('a pentode has rows for its screen, and its cathode carries both currents', () => {
    const rest = restOf('EL34', 250, -13.5, 265);
    const rows = limitsAtRest(tube('EL34'), rest, fixed);
    expect(rows.map(({ name }) => name)).toEqual([
      'plate dissipation',
      'plate voltage',
      'screen dissipation',
      'screen voltage',
      'cathode current',
    ]);
    expect(rows.at(-1)?.value).toBeCloseTo(rest.plateA + rest.screenA, 15);
    expect(rows[2]?.value).toBeCloseTo(265 * 8.206e-3, 2);
  });

  test('strapped to the plate, the screen has its own share of the current at the plate voltage', () => {
    const joined = stageAt(deviceOf(tube('EL34'), 'triode'), 375, -29).rest;
    const rows = limitsAtRest(tube('EL34'), joined, { bias: 'grid', strapped: true });
    const value = (name: string) => rows.find((row) => row.name === name)?.value ?? Number.NaN;
    expect(value('screen voltage')).toBe(375);
    expect(value('plate dissipation') + value('screen dissipation')).toBeCloseTo(375 * joined.plateA, 9);
    expect(value('cathode current')).toBeCloseTo(joined.plateA, 12);
  });

  test('a rating that is not known is a row that says so', () => {
    const rows = limitsAtRest(tube('12AU7'), restOf('12AU7', 250, -8.5), fixed);
    expect(rows).toHaveLength(3);
    for (const row of rows) {
      expect(row).toMatchObject({ limit: null, share: null, over: null, source: null });
      expect(row.absent).toContain('12AU7');
    }
  });

  test('a stage above a rating is flagged and warned of', () => {
    const { stages, problems } = loadSheet([pentode], null, tubes);
    expect(stages[0]?.limits.find(({ name }) => name === 'plate dissipation')?.over).toBe(true);
    expect(problems).toContainEqual(
      expect.objectContaining({
        rule: 'load/over-rating',
        severity: 'warning',
        path: ['stages', 0, 'device'],
      }),
    );
  });
});
