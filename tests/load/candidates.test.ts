import { describe, expect, test } from 'vitest';
import { deviceOf, driveFor, largeSignal, type RestingStage } from '../../src/load/index.ts';
import { candidateLoads } from '../../src/load/rules/candidates.ts';
import { loadsAround, sweepLoads } from '../../src/load/stage/sweep.ts';
import { linearTriode, offBy, stageAt, tube } from './support.ts';

function candidatesOf(
  stage: RestingStage,
  middleOhm: number,
  triode = true,
  describedV: number | null = null,
) {
  const loads = loadsAround(middleOhm);
  const sweep = sweepLoads(stage, loads, describedV);
  const found = candidateLoads({
    stages: { here: stage, voltage: null, current: null },
    aims: { powerW: null, distortionRatio: null },
    ...{ triode, loads, sweep, describedV, typical: [], count: 1, offers: [] },
  });
  return { sweep, found, named: (method: string) => found.find((one) => one.method === method) };
}

const straight = stageAt(linearTriode(4, 800), 300, -45);

describe('triode rules on straight characteristics', () => {
  const { named } = candidatesOf(straight, 3000);

  test('plate voltage over current less twice rp: the crest is twice the current at rest', () => {
    const loadOhm = named('plate voltage over current, less twice rp')?.loadOhm ?? 0;
    expect(offBy(loadOhm, 300 / straight.rest.plateA - 1600)).toBeLessThan(1e-8);
    const drive = driveFor(straight, loadOhm, null);
    const at = drive && largeSignal(straight, loadOhm, drive);
    expect(at?.limitedBy).not.toBe('saturation');
    const crest = largeSignal(straight, loadOhm, { driveV: 45, limitedBy: 'drive' })?.peakPlateA ?? 0;
    expect(offBy(crest, 2 * straight.rest.plateA)).toBeLessThan(1e-6); // tolerance of the averages
  });

  test('equal to rp: no other load takes more power from a given grid swing', () => {
    const loadOhm = named('equal to rp')?.loadOhm ?? 0;
    expect(offBy(loadOhm, 800)).toBeLessThan(1e-8);
    const power = (ohm: number) => largeSignal(straight, ohm, { driveV: 5, limitedBy: 'drive' })?.powerW ?? 0;
    for (const factor of [0.5, 0.9, 1.1, 2]) expect(power(loadOhm * factor)).toBeLessThan(power(loadOhm));
  });

  test('twice rp is twice that', () => {
    expect(offBy(named('twice rp')?.loadOhm ?? 0, 1600)).toBeLessThan(1e-8);
  });

  test('a rule without a positive answer says so', () => {
    const hot = stageAt(linearTriode(4, 800), 300, -5);
    const rule = candidatesOf(hot, 3000).named('plate voltage over current, less twice rp');
    expect(rule).toMatchObject({ loadOhm: null, powerW: null });
    expect(rule?.basis).toContain('below twice rp');
  });
});

describe('pentode rule', () => {
  test('the zero-bias curve carries twice the current at rest where the load line from rest meets it', () => {
    const device = deviceOf(tube('EL34'), 'pentode');
    const stage = stageAt(device, 250, -13.5, { screenV: 265 });
    const loadOhm =
      candidatesOf(stage, 2000, false).named('from rest to the knee of the zero-bias curve')?.loadOhm ?? 0;
    const kneeV = 250 - loadOhm * stage.rest.plateA;
    const crest = device.plateCurrent({ plateV: kneeV, screenV: 265, gridV: 0 });
    expect(offBy(crest, 2 * stage.rest.plateA)).toBeLessThan(1e-9); // solver tolerance
    expect(kneeV).toBeGreaterThan(10);
    expect(kneeV).toBeLessThan(100);
  });

  test('a bias too hot for twice the current says so', () => {
    const stage = stageAt(deviceOf(tube('EL34'), 'pentode'), 250, -3, { screenV: 265 });
    const rule = candidatesOf(stage, 2000, false).named('from rest to the knee of the zero-bias curve');
    expect(rule?.loadOhm).toBeNull();
    expect(rule?.basis).toContain('never');
  });
});

describe('searches over the range', () => {
  const stage = stageAt(deviceOf(tube('EL34'), 'pentode'), 250, -13.5, { screenV: 265 });
  const { sweep, found, named } = candidatesOf(stage, 2000, false);

  test('largest power is the load of the row with most power', () => {
    const most = Math.max(...sweep.map(({ powerW }) => powerW));
    expect(named('largest power')?.powerW).toBe(most);
    expect(sweep.find(({ powerW }) => powerW === most)?.loadOhm).toBe(named('largest power')?.loadOhm);
  });

  test('second and third are equal at the load found between two rows', () => {
    const equal = named('second and third harmonic equal');
    // Interpolated over an eighth of an octave.
    expect(offBy(equal?.secondRatio ?? 0, equal?.thirdRatio ?? 1)).toBeLessThan(0.05);
  });

  test('a best load at the end of the range is not claimed to be the best', () => {
    const third = named('least third harmonic');
    expect(third?.loadOhm).toBeNull();
    expect(third?.basis).toContain('end of the range');
  });

  test('every method has a source and none rests on habit alone', () => {
    for (const one of found) {
      expect(one.source).not.toBe('');
      expect(one.basis).not.toBe('');
      expect(one.status).not.toBe('common practice');
    }
  });
});
