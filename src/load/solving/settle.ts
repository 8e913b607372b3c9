import type { LoadLine } from '../stage/load-line.ts';
import type { Instant, RestingStage } from '../types.ts';
import { halfSteps, meanOfHalf } from './half-period.ts';
import { guessFrom, InstantSolver } from './instant-solver.ts';
import { searchedCycle } from './searched-means.ts';
import { type Evaluation, type Means, type Slopes, steadyCycle } from './steady-means.ts';

const cosines = Array.from({ length: halfSteps + 1 }, (_, k) => Math.cos((Math.PI * k) / halfSteps));

/** A load line with the half period that it gives at a drive, from crest to trough, evenly spaced in phase. */
export interface StageCycle {
  line: LoadLine;
  half: Instant[];
  /** How the averages influence each other. */
  slopes: Slopes | null;
}

/** Instants of half a period of a cosine drive; those of a similar cycle save work. */
function halfPeriod(
  stage: RestingStage,
  line: LoadLine,
  driveV: number,
  near: readonly Instant[] | null,
): Instant[] {
  const solver = new InstantSolver(stage, line);
  const found: Instant[] = [];
  for (const [k, cosine] of cosines.entries()) {
    found.push(solver.at(driveV * cosine, guessFrom(found, near, k)));
  }
  return found;
}

/**
 * A cycle once a steady drive has shifted the averages. Even harmonics raise or lower the average plate current;
 * that moves the plate's mean voltage through the feed resistance and, with a bypassed cathode resistor, the bias.
 * Both are solved until currents and voltages agree. A cycle that is `near` saves work. Null where nothing settles.
 * @source mean values of the period; rectification by the curved characteristic
 */
export function settledCycle(
  stage: RestingStage,
  loadOhm: number,
  driveV: number,
  near: StageCycle | null = null,
): StageCycle | null {
  const { cathode, rest } = stage;
  const steadyOhm = cathode?.bypassed ? cathode.ohm : 0;
  let half = near?.half ?? null;
  const evaluate = ([averagePlateA = 0, screenA = 0]: Means): Evaluation<StageCycle> => {
    const cathodeRiseV = steadyOhm * (averagePlateA - rest.plateA + screenA - rest.screenA);
    const line = { loadOhm, averagePlateA, cathodeRiseV };
    half = halfPeriod(stage, line, driveV, half);
    return { cycle: { line, half, slopes: null }, means: meansOf(half) };
  };
  const start = near ? meansOf(near.half) : [rest.plateA, rest.screenA];
  const coupled = [true, steadyOhm > 0];
  const steady = steadyCycle(evaluate, start, { coupled, scale: rest.plateA, slopes: near?.slopes });
  return steady ? { ...steady.cycle, slopes: steady.slopes } : searchedCycle(evaluate, rest.plateA);
}

const meansOf = (half: readonly Instant[]): Means => [
  meanOfHalf(half, ({ plateA }) => plateA),
  meanOfHalf(half, ({ screenA }) => screenA),
];
