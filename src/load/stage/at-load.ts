import { leavesCurves } from '../device/device-messages.ts';
import { noDrive, noFundamental, noLoad } from '../messages.ts';
import { nothingSettles } from '../push-pull/push-pull-messages.ts';
import { type StageCycle, settledCycle } from '../solving/settle.ts';
import type { AtLoad, RestingStage } from '../types.ts';
import { driveFor, figuresOf, signalOf } from './large-signal.ts';

/** A stage at its drive, with the cycle that its figures are taken from. */
interface Driven {
  at: AtLoad;
  cycle: StageCycle;
}

/** The figures of a stage at its load, or the reason why there are none, with the cycle where there is one. */
export function figuresAtLoad(
  stage: RestingStage,
  loadOhm: number | null,
  describedV: number | null,
): Driven | { reason: string; cycle: StageCycle | null } {
  if (loadOhm === null) return { reason: noLoad(), cycle: null };
  const drive = driveFor(stage, loadOhm, describedV);
  if (drive === null) return { reason: noDrive(), cycle: null };
  const cycle = settledCycle(stage, loadOhm, drive.driveV);
  if (cycle === null) return { reason: nothingSettles(), cycle };
  const signal = signalOf(stage, cycle);
  return signal
    ? { at: figuresOf(stage, drive, signal), cycle }
    : { reason: noFigures(stage, drive.driveV), cycle };
}

const noFigures = ({ device }: RestingStage, driveV: number) =>
  device.margin ? leavesCurves(driveV) : noFundamental();
