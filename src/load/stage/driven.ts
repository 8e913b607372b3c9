import { type PairCycle, pairCycle } from '../push-pull/push-pull-cycle.ts';
import { pairDrive } from '../push-pull/push-pull-drive.ts';
import { pairOutput } from '../push-pull/push-pull-signal.ts';
import type { PairAtRest } from '../push-pull/push-pull-stage.ts';
import { totalDistortion } from '../solving/harmonics-of-period.ts';
import type { StageCycle } from '../solving/settle.ts';
import type { RestingStage } from '../types.ts';
import { driveFor, signalAt } from './large-signal.ts';
import type { DrivenPoint, PowerStage } from './power-stage.ts';

/** A tube on a load at any drive up to the described or the largest undisturbed one; null without a swing. */
export function drivenTube(
  stage: RestingStage,
  loadOhm: number,
  describedV: number | null,
): PowerStage | null {
  const most = driveFor(stage, loadOhm, describedV);
  let near: StageCycle | null = null;
  const at = (driveV: number) => {
    const signal = signalAt(stage, loadOhm, driveV, near);
    near = signal?.cycle ?? near;
    return signal && pointOf(driveV, signal);
  };
  const full = most && at(most.driveV);
  return full && { full, at };
}

/** A pair on a load at any drive up to the described or the largest undisturbed one; null without a swing. */
export function drivenPair(pair: PairAtRest, loadOhm: number, describedV: number | null): PowerStage | null {
  const most = pairDrive(pair, loadOhm, describedV)?.cycle ?? null;
  let near = most;
  const ofCycle = (cycle: PairCycle | null) => {
    const output = cycle && pairOutput(cycle);
    return output && pointOf(cycle.driveV, output);
  };
  const at = (driveV: number) => {
    const cycle = pairCycle(pair, loadOhm, driveV, near);
    near = cycle ?? near;
    return ofCycle(cycle);
  };
  const full = ofCycle(most);
  return full && { full, at };
}

const pointOf = (
  driveV: number,
  { powerW, harmonics }: Pick<DrivenPoint, 'powerW' | 'harmonics'>,
): DrivenPoint => ({
  ...{ driveV, powerW, harmonics },
  thdRatio: totalDistortion(harmonics.map(({ ratio }) => ratio)),
});
