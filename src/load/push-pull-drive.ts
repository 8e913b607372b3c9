import { type PairCycle, pairCycle, pairInstant, settledPairLine } from './push-pull-cycle.ts';
import type { PairAtRest } from './push-pull-stage.ts';
import { slope } from './small-signal.ts';
import { findRoot } from './solve.ts';
import type { SwingLimit } from './types.ts';

/** Saturation is counted from this share of the gain from zero to the crest. */
const saturationShare = 0.1;

interface DrivenPair {
  cycle: PairCycle;
  limitedBy: SwingLimit;
}

/**
 * The steady cycle at the described drive, or at the largest undisturbed one: up to 0 V between grid and
 * cathode, with the bias that this drive brings about, or up to where one more volt at the grids moves the
 * load voltage by less than a tenth of what the volts before it did on average (saturation). A side that is
 * cut off ends nothing. Null where the bias leaves no swing or nothing settles.
 * @source definitions of the two limits; the share is this program's own
 */
export function pairDrive(
  pair: PairAtRest,
  loadOhm: number,
  describedV: number | null,
  near: PairCycle | null = null,
): DrivenPair | null {
  const cycle = pairCycle(pair, loadOhm, describedV ?? 'to zero grid', near);
  if (cycle === null || cycle.driveV <= 0) return null;
  if (describedV !== null) return { cycle, limitedBy: 'drive' };
  const saturatedV = driveToSaturation(pair, cycle);
  if (saturatedV === null) return { cycle, limitedBy: 'grid current' };
  const less = pairCycle(pair, loadOhm, saturatedV, cycle);
  return less && { cycle: less, limitedBy: 'saturation' };
}

/** Peak drive at which a grid of this pair reaches its cathode's voltage; null where nothing settles. */
export function pairDriveToZeroGrid(pair: PairAtRest, loadOhm: number): number | null {
  return pairCycle(pair, loadOhm, 'to zero grid')?.driveV ?? null;
}

function driveToSaturation(pair: PairAtRest, cycle: PairCycle): number | null {
  const line = settledPairLine(pair, cycle);
  const crest = (inputV: number) => pairInstant(pair, line, inputV).halfV;
  const left = (driveV: number) =>
    slope(crest, driveV) - (saturationShare * (crest(driveV) - crest(0))) / driveV;
  if (left(cycle.driveV) >= 0) return null;
  return findRoot(left, { low: cycle.driveV / 10, high: cycle.driveV }, 1e-6);
}
