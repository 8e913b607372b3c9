import { describe, expect, test } from 'vitest';
import { checks, tubes } from './support.ts';

describe('shared/tubes', () => {
  test('holds one file for each type of the published parameter table', () => {
    expect(Object.keys(tubes).sort()).toEqual(
      ['12AT7', '12AU7', '12AX7', '2A3', '300B', '6550', '6C33C', '6DJ8', '6L6GC', 'EL34', 'KT88'].sort(),
    );
  });

  test.each(Object.values(tubes))(
    '$type has positive parameters, and kG2 exactly if it has a screen',
    (tube) => {
      const { kG2, ...others } = tube.model;
      expect(Object.values(others).every((value) => value > 0)).toBe(true);
      expect(kG2 !== undefined).toBe(tube.construction === 'pentode');
    },
  );

  test.each(Object.values(tubes))('$type names a source and a status for every value', (tube) => {
    const statuses = ['seen', 'secondary', 'memory'];
    expect(tube.modelSource).not.toBe('');
    expect(statuses).toContain(tube.modelStatus);
    for (const rating of Object.values(tube.ratings)) {
      expect(rating.value).toBeGreaterThan(0);
      expect(rating.source).not.toBe('');
      expect(statuses).toContain(rating.status);
    }
  });
});

describe('heaters and typical operation', () => {
  const all = Object.values(tubes);
  const heaters = all.flatMap(({ type, heater }) => (heater ? [{ type, ...heater }] : []));
  const rows = all.flatMap(({ type, typicalOperation = [] }) =>
    typicalOperation.map((row) => ({ type, ...row })),
  );

  test('each names a source and a status', () => {
    expect(heaters.length).toBeGreaterThan(0);
    for (const { type, source, status } of [...heaters, ...rows]) {
      expect(source, type).not.toBe('');
      expect(['seen', 'secondary', 'memory'], type).toContain(status);
    }
  });

  test('a 300B heats with 5 V and 1.2 A (Western Electric data sheet)', () => {
    expect(heaters.find(({ type }) => type === '300B')).toMatchObject({
      voltage: 5,
      current: 1.2,
      status: 'seen',
    });
  });

  test('no row delivers more than its supply gives: half of it at most single-ended, 78.5 % push-pull', () => {
    for (const { type, use, plateV, plateA, fullDrivePlateA, powerW } of rows) {
      const share = powerW / (plateV * (fullDrivePlateA ?? plateA));
      // Class A and B limits (derived); a triode's full-drive current is not printed for every row.
      expect(share, `${type} ${use} ${plateV} V`).toBeLessThan(
        use === 'single-ended class A' ? 0.5 : Math.PI / 4,
      );
    }
  });

  test('the 2A3 row agrees with the cathode resistor printed beside it: 45 V over 60 mA is 750 Ω', () => {
    const row = rows.find(({ type, use }) => type === '2A3' && use === 'single-ended class A');
    expect(row && -(row.gridV ?? 0) / row.plateA).toBeCloseTo(750, 9); // r-type.org data block, exact division
  });
});

describe('shared/checks/load.json', () => {
  test('gives every check an id of its own, a source and a status', () => {
    expect(new Set(checks.map(({ id }) => id)).size).toBe(checks.length);
    for (const { source, status } of checks) {
      expect(source).not.toBe('');
      expect(['seen', 'seen and recomputed', 'secondary', 'derived', 'memory']).toContain(status);
    }
  });
});
