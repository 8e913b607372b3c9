import { slope } from '../device/small-signal.ts';
import { findRoot } from '../solving/solve.ts';
import type { SwingLimit } from '../types.ts';
import { PairSolver } from './pair-solver.ts';
import { type PairCycle, pairCycle } from './push-pull-cycle.ts';
import type { PairAtRest } from './push-pull-stage.ts';

/** Saturation is counted from this share of the gain from zero to the crest. */
const saturationShare = 0.1;

export interface DrivenPair {
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
  const less = saturatedV === null ? cycle : pairCycle(pair, loadOhm, saturatedV, cycle);
  if (less === null) return null;
  const inside = insideCurves(pair, less);
  if (inside !== less) return inside && { cycle: inside, limitedBy: 'traced curves' };
  return { cycle: less, limitedBy: saturatedV === null ? 'grid current' : 'saturation' };
}

/** Rounds of settling, and what is kept of the drive in each so that the next shift of the averages stays inside. */
const mostRounds = 20;
const keptShare = 0.998;

/** The cycle itself, or that of the largest drive that stays within the traced curves; null where nothing is left. */
function insideCurves(pair: PairAtRest, full: PairCycle): PairCycle | null {
  let cycle: PairCycle | null = full;
  for (let round = 0; round < mostRounds && cycle && cycle.driveV > 0; round++) {
    const unknown = cycle.unknownSwings();
    if (unknown.length === 0) return cycle;
    cycle = pairCycle(pair, full.loadOhm, keptShare * Math.min(...unknown), cycle);
  }
  return null;
}

/** Peak drive at which a grid of this pair reaches its cathode's voltage; null where nothing settles. */
export function pairDriveToZeroGrid(pair: PairAtRest, loadOhm: number): number | null {
  return pairCycle(pair, loadOhm, 'to zero grid')?.driveV ?? null;
}

function driveToSaturation(pair: PairAtRest, cycle: PairCycle): number | null {
  const solver = new PairSolver(pair, cycle.line);
  const crest = (inputV: number) => {
    solver.solve(inputV, inputV === 0 ? 0 : solver.halfV);
    return solver.halfV;
  };
  const middleV = crest(0);
  solver.solve(cycle.driveV, cycle.waves.halfV[0] ?? 0);
  const left = (driveV: number) =>
    slope(crest, driveV) - (saturationShare * (crest(driveV) - middleV)) / driveV;
  if (left(cycle.driveV) >= 0) return null;
  return findRoot(left, { low: cycle.driveV / 10, high: cycle.driveV }, 1e-6);
}
