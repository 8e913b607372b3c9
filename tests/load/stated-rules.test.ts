import { describe, expect, test } from 'vitest';
import {
  atPower,
  type Candidate,
  loadSheet,
  type PushPullDescription,
  type TubeStageDescription,
} from '../../src/load/index.ts';
import { drivenTube } from '../../src/load/stage/driven.ts';
import { resolveStage } from '../../src/load/stage/resting-stage.ts';
import { loadsAround } from '../../src/load/stage/sweep.ts';
import { offBy, pentode, resistanceCoupled, singleEnded, tubeSheet, tubes } from './support.ts';

const problemsOf = (stage: TubeStageDescription) => loadSheet([stage], null, tubes).problems;

function statedOf(stage: TubeStageDescription): Candidate {
  const { candidates } = tubeSheet(loadSheet([stage], null, tubes).stages[0]);
  const found = candidates.find(({ method }) => / at [\d.]/.test(method));
  if (!found) throw new Error('no stated rule');
  return found;
}

/** What the stage gives into each load of its range at any drive, worked out load by load. */
function drivenLoads(stage: TubeStageDescription) {
  const resolved = resolveStage(stage, { supply: null, tubes });
  if ('faults' in resolved || stage.loadOhm === null) throw new Error('no stage');
  return loadsAround(stage.loadOhm).map((loadOhm) => ({
    loadOhm,
    driven: drivenTube(resolved.stage, loadOhm, null),
  }));
}

describe('the load of least distortion at a stated power', () => {
  test.each([
    ['a triode', singleEnded, 2],
    ['a pentode', pentode, 3],
  ])('of %s gives that power, and no other load of the range gives it cleaner', (_, stage, statedPowerW) => {
    const found = statedOf({ ...stage, statedPowerW });
    const others = drivenLoads(stage).flatMap(({ loadOhm, driven }) => {
      const point = driven && atPower(driven, statedPowerW);
      return point ? [{ loadOhm, thdRatio: point.thdRatio }] : [];
    });
    const least = others.reduce((best, one) => (one.thdRatio < best.thdRatio ? one : best));
    if (found.loadOhm === null) {
      expect([others[0]?.loadOhm, others.at(-1)?.loadOhm]).toContain(least.loadOhm);
      return;
    }
    expect(offBy(found.powerW ?? 0, statedPowerW)).toBeLessThan(1e-5); // as close as it is sought
    expect(found.loadOhm).toBe(least.loadOhm);
    expect(offBy(found.thdRatio ?? 0, least.thdRatio)).toBeLessThan(1e-4);
  });

  test('is not that of least distortion at full drive', () => {
    const { candidates, explanation } = tubeSheet(
      loadSheet([{ ...pentode, statedPowerW: 3 }], null, tubes).stages[0],
    );
    const full = candidates.find(({ short }) => short === 'least THD');
    const stated = candidates.find(({ short }) => short === 'least THD at 3.00\u00a0W');
    expect(stated?.thdRatio).toBeLessThan(full?.thdRatio ?? 0);
    expect(stated?.powerW).toBeLessThan(full?.powerW ?? 0);
    expect(stated?.fromMostPowerDb).toBeLessThan(-3);
    expect(explanation.join(' ')).toMatch(
      /Least distortion at full drive \([\d.]+\u00a0kΩ\) and at the stated power \([\d.]+\u00a0kΩ\) are 1\.\d times apart/,
    );
  });

  test('out of reach says so', () => {
    expect(statedOf({ ...pentode, statedPowerW: 500 })).toMatchObject({
      loadOhm: null,
      powerW: null,
      fromMostPowerDb: null,
      side: null,
      basis: 'no load of the range gives this power before grid current begins',
    });
  });
});

describe('the load of most power at a stated distortion', () => {
  const statedDistortionRatio = 0.05;

  test.each([
    ['a triode', singleEnded],
    ['a pentode', pentode],
  ])('of %s distorts no more, and no other load gives more power as clean', (_, stage) => {
    const found = statedOf({ ...stage, statedDistortionRatio });
    expect(found.loadOhm).not.toBeNull();
    expect(found.thdRatio).toBeLessThan(statedDistortionRatio * (1 + 1e-5)); // as close as it is sought
    const drives = Array.from({ length: 100 }, (_, k) => (k + 1) / 100);
    for (const { driven } of drivenLoads(stage)) {
      const clean = drives
        .flatMap((share) => driven?.at(share * driven.full.driveV) ?? [])
        .filter(({ thdRatio }) => thdRatio <= statedDistortionRatio);
      const most = Math.max(0, ...clean.map(({ powerW }) => powerW));
      expect(most).toBeLessThanOrEqual((found.powerW ?? 0) * (1 + 1e-5));
    }
  });

  test('that full drive keeps to is the load of most power', () => {
    const { candidates } = tubeSheet(
      loadSheet([{ ...singleEnded, statedDistortionRatio: 0.5 }], null, tubes).stages[0],
    );
    const [most, stated] = ['most power', 'most power at 50\u00a0%'].map((short) =>
      candidates.find((one) => one.short === short),
    );
    expect(stated?.loadOhm).toBe(most?.loadOhm);
    expect(offBy(stated?.powerW ?? 0, most?.powerW ?? 1)).toBeLessThan(1e-6);
  });

  test('a pair takes it too', () => {
    const pair: PushPullDescription = {
      ...{ id: 'output', topology: 'push-pull', device: '6L6GC', connection: 'pentode', tapRatio: null },
      ...{ count: 1, plateV: 450, supplyV: null, screenV: 400, bias: { kind: 'grid', gridV: -37 } },
      ...{ windingOhm: null, loadOhm: 5600, driveV: null, powerW: null, mismatchRatio: 0 },
      statedDistortionRatio: 0.02,
    };
    const [sheet] = loadSheet([pair], null, tubes).stages;
    const candidates = sheet?.topology === 'push-pull' ? sheet.candidates : [];
    const found = candidates.find(({ short }) => short === 'most power at 2.0\u00a0%');
    expect(found?.thdRatio).toBeLessThan(0.02 * (1 + 1e-5));
    expect(found?.powerW).toBeLessThan(candidates.find(({ short }) => short === 'most power')?.powerW ?? 0);
  });
});

describe('what cannot be asked is a located fault', () => {
  test.each<[string, TubeStageDescription, string, string]>([
    ['no power', { ...singleEnded, statedPowerW: 0 }, 'load/out-of-range', 'statedPower'],
    [
      'a power without number',
      { ...singleEnded, statedPowerW: Number.NaN },
      'load/out-of-range',
      'statedPower',
    ],
    ['no distortion', { ...singleEnded, statedDistortionRatio: 0 }, 'load/out-of-range', 'statedDistortion'],
    [
      'more than all',
      { ...singleEnded, statedDistortionRatio: 1.5 },
      'load/out-of-range',
      'statedDistortion',
    ],
    [
      'of a stage without a load to choose',
      { ...resistanceCoupled, plateV: 150, statedPowerW: 1 },
      'load/contradiction',
      'statedPower',
    ],
  ])('%s', (_, stage, rule, key) => {
    const [problem, ...more] = problemsOf(stage);
    expect(more).toEqual([]);
    expect(problem).toMatchObject({ rule, path: ['stages', 0, key] });
    expect(problem?.message).toMatch(/^.+\.$/);
    expect(problem?.hint).toMatch(/[.?]$/);
  });
});
