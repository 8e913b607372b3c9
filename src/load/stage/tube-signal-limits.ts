import { insideOf } from '../device/connections.ts';
import { meanOfHalf } from '../solving/half-period.ts';
import type { StageCycle } from '../solving/settle.ts';
import type { Bias, LimitRow, RestingStage, StageDevice } from '../types.ts';
import { limitsWithSignal, type TubeSignalMeans } from './limits-with-signal.ts';

/** Each tube of a single-ended stage over a steady cycle. */
export function limitsAtDrive(
  tubes: StageDevice,
  stage: RestingStage,
  { half }: StageCycle,
  bias: Bias['kind'],
): LimitRow[] {
  const mean = (value: (inside: ReturnType<typeof insideOf>, plateV: number) => number) =>
    meanOfHalf(half, (instant) => value(insideOf(stage.device, instant), instant.plateV)) / tubes.count;
  const means: TubeSignalMeans = {
    plateW: mean(({ plateA }, plateV) => plateA * plateV),
    screenW: mean(({ screenA, screenV }) => screenA * screenV),
    cathodeA: mean(({ plateA, screenA }) => plateA + screenA),
  };
  return limitsWithSignal(tubes, means, { bias, when: 'at full drive' });
}
