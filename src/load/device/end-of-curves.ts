import { InstantSolver } from '../solving/instant-solver.ts';
import { settledCycle } from '../solving/settle.ts';
import { findRoot } from '../solving/solve.ts';
import type { LoadLine } from '../stage/load-line.ts';
import type { Device, Electrodes, Instant, RestingStage } from '../types.ts';
import { marginOf } from './connections.ts';

/** What rounding may leave of a margin. */
const toleranceV = 1e-6;
/** Places on either half of the swing where it is looked whether it has left the curves. */
const places = 32;
/** Rounds of settling, and what is kept of the drive in each so that the next shift of the line stays inside. */
const mostRounds = 6;
const keptShare = 0.998;

/** True where a point lies within what is known of a device. */
export const isInside = (device: Device, at: Electrodes): boolean => marginOf(device, at) >= -toleranceV;

/** The same of an instant of a stage. */
export const isKnown = ({ device }: RestingStage, at: Instant): boolean => isInside(device, at);

/**
 * Largest peak drive along a load line, up to `most`, whose whole swing stays within what is known of the device; null
 * where that is all of it. The border may have steps, so that every part of the swing is looked at.
 */
export function driveToEndOfCurves(stage: RestingStage, line: LoadLine, most: number): number | null {
  if (!stage.device.margin) return null;
  const [crest, trough] = [new InstantSolver(stage, line), new InstantSolver(stage, line)];
  const left = (driveV: number) => {
    const ends = [crest.at(driveV), trough.at(-driveV)].map((at) => marginOf(stage.device, at));
    return Math.min(...ends) + toleranceV;
  };
  for (let place = 1; place <= places; place++) {
    const high = (most * place) / places;
    if (left(high) < 0) return findRoot(left, { low: (most * (place - 1)) / places, high }, 1e-6) ?? 0;
  }
  return null;
}

/** The instant of a swing that lies nearest to the border of what is known of the device. */
export function nearestToEnd(stage: RestingStage, half: readonly Instant[]): Instant | null {
  const margin = (at: Instant) => marginOf(stage.device, at);
  return half.reduce<Instant | null>(
    (nearest, at) => (nearest === null || margin(at) < margin(nearest) ? at : nearest),
    null,
  );
}

/** The largest drive with the load line where the drive itself moves it by rectification; null where nothing is left. */
export function settledDriveToEnd(stage: RestingStage, loadOhm: number, most: number): number | null {
  let driveV = most;
  for (let round = 0; round < mostRounds && driveV > 0; round++) {
    const cycle = settledCycle(stage, loadOhm, driveV);
    if (cycle === null) return null;
    const { line, half } = cycle;
    const unknown = half.flatMap((at, k) =>
      isKnown(stage, at) ? [] : [driveV * Math.abs(Math.cos((Math.PI * k) / (half.length - 1)))],
    );
    if (unknown.length === 0) return driveV;
    const ended = driveToEndOfCurves(stage, line, driveV) ?? driveV;
    driveV = keptShare * Math.min(ended, ...unknown);
  }
  return null;
}
