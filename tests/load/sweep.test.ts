import { describe, expect, test } from 'vitest';
import { deviceOf, driveFor, largeSignal } from '../../src/load/index.ts';
import { loadsAround, sweepLoads } from '../../src/load/stage/sweep.ts';
import { offBy, stageAt, tube } from './support.ts';

describe('the range of loads', () => {
  test('is 33 loads, an eighth of an octave apart, from a quarter to four times the load, which is among them', () => {
    const loads = loadsAround(3400);
    expect(loads).toHaveLength(33);
    expect(loads[0]).toBeCloseTo(850, 9);
    expect(loads.at(-1)).toBeCloseTo(13600, 8);
    expect(loads).toContain(3400);
    for (const [index, load] of loads.slice(1).entries()) {
      expect(offBy(load / (loads[index] ?? 0), 2 ** (1 / 8))).toBeLessThan(1e-12); // rounding
    }
  });

  test('stops at the plate resistor of a resistance-coupled stage', () => {
    const loads = loadsAround(76.7e3, { mostOhm: 100e3 });
    expect(loads).toHaveLength(33);
    expect(Math.max(...loads)).toBeLessThanOrEqual(100e3);
    expect(loads.some((load) => offBy(load, 76.7e3) < 1e-12)).toBe(true);
  });

  test('ends at the load where it is the plate resistor itself', () => {
    expect(loadsAround(100e3, { mostOhm: 100e3 }).at(-1)).toBe(100e3);
  });
});

describe('a sweep', () => {
  const stage = stageAt(deviceOf(tube('300B'), 'triode'), 300, -61);
  const rows = sweepLoads(stage, loadsAround(3400), null);

  test('agrees with the single calculation at the same load', () => {
    const drive = driveFor(stage, 3400, null);
    const single = drive && largeSignal(stage, 3400, drive);
    const row = rows.find(({ loadOhm }) => loadOhm === 3400);
    // Averages are settled to 1e-10, each load's from those of the one before.
    expect(offBy(row?.powerW ?? 0, single?.powerW ?? 0)).toBeLessThan(1e-9);
    expect(offBy(row?.thdRatio ?? 0, single?.thdRatio ?? 0)).toBeLessThan(1e-9);
    expect(row?.limitedBy).toBe('grid current');
  });

  test('of a triode passes from cut-off to grid current as the load rises, with less and less second harmonic', () => {
    expect(rows).toHaveLength(33);
    expect(rows[0]?.limitedBy).toBe('cut-off');
    expect(rows.at(-1)?.limitedBy).toBe('grid current');
    const seconds = rows.map(({ secondRatio }) => secondRatio);
    expect(seconds).toEqual([...seconds].sort((a, b) => b - a));
  });

  test('of a pentode has a load at which the second harmonic all but vanishes', () => {
    const el34 = stageAt(deviceOf(tube('EL34'), 'pentode'), 250, -13.5, { screenV: 265 });
    const seconds = sweepLoads(el34, loadsAround(2000), null).map(({ secondRatio }) => secondRatio);
    const least = seconds.indexOf(Math.min(...seconds));
    expect(least).toBeGreaterThan(0);
    expect(least).toBeLessThan(32);
    expect(Math.min(...seconds)).toBeLessThan(0.02);
  });

  test('leaves out loads at which nothing swings', () => {
    expect(sweepLoads(stageAt(deviceOf(tube('300B'), 'triode'), 100, 0), loadsAround(3400), null)).toEqual(
      [],
    );
  });
});
