import { describe, expect, test } from 'vitest';
import { largeSignal } from '../../src/load/index.ts';
import { check, checks, deviceFrom, stageAt, tube, tubes } from './support.ts';

describe('rows of data sheets that are easily mixed up', () => {
  const rows = tube('6L6GC').typicalOperation ?? [];

  test('54 mA at rest belongs to one 6L6GC at 350 V; the pair at 450 V rests at 116 mA (from memory)', () => {
    const single = rows.find(({ use, plateV }) => use === 'single-ended class A' && plateV === 350);
    const two = rows.find(({ use }) => use === 'push-pull class AB1');
    expect(single?.plateA).toBe(0.054);
    expect(two).toMatchObject({ plateV: 450, plateA: 0.116, loadOhm: 5600 });
  });

  test('the single 6L6GC at 350 V works into 4.2 kΩ, not the 5 kΩ of a secondary source (from memory)', () => {
    const single = rows.find(({ use, plateV }) => use === 'single-ended class A' && plateV === 350);
    expect(single?.loadOhm).toBe(4200);
  });

  test('a load is never a plate resistance: every pentode row loads below 6 kΩ, where ra is 20 kΩ and more', () => {
    const pentodes = Object.values(tubes).filter(({ construction }) => construction === 'pentode');
    const loads = pentodes.flatMap(({ typicalOperation = [] }) =>
      typicalOperation.map(({ loadOhm }) => loadOhm),
    );
    expect(loads.length).toBeGreaterThan(0);
    expect(Math.max(...loads)).toBeLessThan(10e3); // 22 kΩ is the ra that one source prints beside a KT66
  });
});

test('the EL34 row sits on its rating of 25 W and on 117.5 Ω for 13.5 V (Philips, from memory; arithmetic derived)', () => {
  const { typicalOperation, ratings } = tube('EL34');
  const row = typicalOperation?.find(({ use }) => use === 'single-ended class A');
  expect((row?.plateV ?? 0) * (row?.plateA ?? 0)).toBeCloseTo(ratings.plateDissipation?.value ?? 0, 9);
  expect(-(row?.gridV ?? 0) / ((row?.plateA ?? 0) + (row?.screenA ?? 0))).toBeCloseTo(117.5, 1); // four digits stated
});

test('no parameter of grid current is in the tube data: the sources of one disagree', () => {
  for (const { model, modelSource } of Object.values(tubes)) {
    const known = ['mu', 'ex', 'kG1', 'kG2', 'kP', 'kVB'];
    expect(Object.keys(model).filter((key) => !known.includes(key))).toEqual([]);
    expect(modelSource).toContain('Koren');
  }
});

test('of the class B example on p. 336 only the efficiency is used, as its powers are of another circuit', () => {
  const row = checks.find(({ id }) => id === 'class-b-20-15');
  expect(Object.keys(row?.expected ?? {})).toEqual(['efficiency']);
});

describe('efficiency of an ideal class A stage with a transformer', () => {
  const { given, expected } = check<{ restV: number; peakV: number[] }, { efficiency: number[] }>(
    'class-a-transformer',
  );

  test.each(given.peakV.map((peakV, index) => [peakV, expected.efficiency[index] ?? Number.NaN]))(
    '10 V at rest and a swing of %d V (textbook companion, p. 334)',
    (peakV, efficiency) => {
      // A device that follows its grid alone, 100 mA at rest, into 100 Ω.
      const stage = stageAt(
        deviceFrom((_plateV, gridV) => 0.1 + gridV / 100),
        given.restV,
        0,
      );
      const found = largeSignal(stage, 100, { driveV: peakV, limitedBy: 'drive' });
      expect(found?.efficiency).toBeCloseTo(efficiency, 9); // closed form
    },
  );
});
