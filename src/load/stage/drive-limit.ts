import { driveToEndOfCurves } from '../device/end-of-curves.ts';
import { slope } from '../device/small-signal.ts';
import { InstantSolver } from '../solving/instant-solver.ts';
import { findRoot } from '../solving/solve.ts';
import type { RestingStage, SwingLimit } from '../types.ts';
import { lineAtRest } from './load-line.ts';

/** Cut-off is counted from this share of the current at rest. */
const cutOffShare = 0.01;
/** Saturation is counted from this share of the slope at rest. */
const saturationShare = 0.1;

export interface DriveLimit {
  driveV: number;
  limitedBy: Exclude<SwingLimit, 'drive'>;
}

/**
 * Largest undisturbed peak drive into a load: up to 0 V between grid and cathode, or less where the other
 * half of the swing falls below 1 % of the current at rest (cut-off), or where one more volt at the grid
 * moves the plate current by less than a tenth of what it does at rest (saturation). Judged along the load
 * line through the point of rest. Null where the bias leaves no swing.
 * @source definitions of the three limits; the two shares are this program's own
 */
export function driveLimit(stage: RestingStage, loadOhm: number): DriveLimit | null {
  const line = lineAtRest(stage, loadOhm);
  const along = new InstantSolver(stage, line);
  const toGridCurrent = driveToZeroGrid(stage, loadOhm);
  if (toGridCurrent <= 0) return null;
  const limits: DriveLimit[] = [{ driveV: toGridCurrent, limitedBy: 'grid current' }];
  const toCutOff = firstCrossing(currentLeft(along, stage.rest.plateA), toGridCurrent);
  if (toCutOff !== null) limits.push({ driveV: toCutOff, limitedBy: 'cut-off' });
  const toSaturation = firstCrossing(slopeLeft(along), toGridCurrent);
  if (toSaturation !== null) limits.push({ driveV: toSaturation, limitedBy: 'saturation' });
  const toEnd = driveToEndOfCurves(stage, line, toGridCurrent);
  if (toEnd !== null) limits.push({ driveV: toEnd, limitedBy: 'traced curves' });
  return limits.reduce((least, limit) => (limit.driveV < least.driveV ? limit : least));
}

/** Peak drive at whose crest the grid reaches the cathode's voltage. */
export function driveToZeroGrid(stage: RestingStage, loadOhm: number): number {
  return new InstantSolver(stage, lineAtRest(stage, loadOhm)).atZeroGrid().cathodeRiseV - stage.rest.gridV;
}

/** Current at the trough of a drive above what counts as cut-off. */
function currentLeft(along: InstantSolver, restA: number): (driveV: number) => number {
  return (driveV) => along.at(-driveV).plateA - cutOffShare * restA;
}

/** Slope at the crest of a drive above what counts as saturation. */
function slopeLeft(along: InstantSolver): (driveV: number) => number {
  const current = (inputV: number) => along.at(inputV).plateA;
  const atRest = slope(current, 0);
  return (driveV) => slope(current, driveV) - saturationShare * atRest;
}

/** Where a quantity that is positive at no drive falls through zero; null where it does not. */
function firstCrossing(left: (driveV: number) => number, most: number): number | null {
  return left(most) < 0 ? findRoot(left, { low: 0, high: most }) : null;
}
