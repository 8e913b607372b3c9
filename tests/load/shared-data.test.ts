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

describe('shared/checks/load.json', () => {
  test('gives every check an id of its own, a source and a status', () => {
    expect(new Set(checks.map(({ id }) => id)).size).toBe(checks.length);
    for (const { source, status } of checks) {
      expect(source).not.toBe('');
      expect(['seen', 'seen and recomputed', 'secondary', 'derived', 'memory']).toContain(status);
    }
  });
});
