import { insideOf } from './connections.ts';
import { limitsWithSignal, type TubeSignalMeans } from './limits-with-signal.ts';
import { halfPeriod, meanOf, settledLine } from './settle.ts';
import type { AtLoad, Bias, LimitRow, RestingStage, StageDevice } from './types.ts';

/** Each tube of a single-ended stage at the drive of its figures at the load, as means of the cycle. */
export function limitsAtDrive(
  tubes: StageDevice,
  stage: RestingStage,
  { loadOhm, driveV }: AtLoad,
  bias: Bias['kind'],
): LimitRow[] {
  const half = halfPeriod(stage, settledLine(stage, loadOhm, driveV), driveV);
  const mean = (value: (inside: ReturnType<typeof insideOf>, plateV: number) => number) =>
    meanOf(half, (instant) => value(insideOf(stage.device, instant), instant.plateV)) / tubes.count;
  const means: TubeSignalMeans = {
    plateW: mean(({ plateA }, plateV) => plateA * plateV),
    screenW: mean(({ screenA, screenV }) => screenA * screenV),
    cathodeA: mean(({ plateA, screenA }) => plateA + screenA),
  };
  return limitsWithSignal(tubes, means, { bias, when: 'at full drive' });
}
