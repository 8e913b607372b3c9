import { solveLinear } from '../output/linear-system.ts';

const mostSteps = 40;
const mostHalvings = 12;
const settled = 1e-10;
const relativeStep = 1e-5;
/** A step that leaves more than this share of the differences makes the slopes be taken anew. */
const goodStep = 0.3;

export type Means = readonly number[];

/** What a cycle computed with some averages gives back. */
export interface Evaluation<Cycle> {
  cycle: Cycle;
  means: Means;
}

interface Trial<Cycle> {
  now: Means;
  cycle: Cycle;
  /** What came back less what was given, of the coupled averages. */
  error: number[];
}

/** By row: the change of each difference per change of each coupled average. */
export type Slopes = readonly (readonly number[])[];

/** The cycle and the slopes that led to it, from which the search for a similar one can begin. */
export interface Steady<Cycle> {
  cycle: Cycle;
  slopes: Slopes | null;
}

/**
 * The cycle whose averages are those that it was computed with: Newton's method with forward differences,
 * slopes carried on from step to step while that converges, each step halved until it brings the averages
 * nearer. Averages that are not `coupled` do not influence the cycle. `scale` says what a small difference is.
 * Null where nothing settles.
 * @source Newton's method for a system of equations; C. G. Broyden, Math. Comp. 19 (1965) 577, for the slopes
 * (from memory)
 */
export function steadyCycle<Cycle>(
  evaluate: (trial: Means) => Evaluation<Cycle>,
  start: Means,
  of: { coupled: readonly boolean[]; scale: number; slopes?: Slopes | null | undefined },
): Steady<Cycle> | null {
  const { coupled, scale } = of;
  const free = coupled.flatMap((is, index) => (is ? [index] : []));
  const at = (now: Means): Trial<Cycle> => {
    const { cycle, means } = evaluate(now);
    return { now, cycle, error: free.map((index) => (means[index] ?? 0) - (now[index] ?? 0)) };
  };
  let trial = at(start);
  let slopes = of.slopes ?? null;
  for (let step = 0; step < mostSteps; step++) {
    if (sizeOf(trial.error) <= settled * (scale + sizeOf(trial.now))) return { cycle: trial.cycle, slopes };
    const used: Slopes = slopes ?? slopesAt(at, trial, free, scale);
    const next = nearer(at, trial, free, used);
    if (next === null && slopes === null) return null;
    const good = next !== null && sizeOf(next.error) < goodStep * sizeOf(trial.error);
    slopes = good ? carriedOn(used, trial, next, free) : null;
    trial = next ?? trial;
  }
  return null;
}

const sizeOf = (values: readonly number[]) =>
  values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);

/** With some of the averages moved, by their place among the coupled ones. */
const moved = (now: Means, free: readonly number[], by: readonly number[]): Means =>
  now.map((value, index) => value + (by[free.indexOf(index)] ?? 0));

function slopesAt<Cycle>(
  at: (now: Means) => Trial<Cycle>,
  { now, error }: Trial<Cycle>,
  free: readonly number[],
  scale: number,
): number[][] {
  const columns = free.map((index, column) => {
    const width = relativeStep * (scale + Math.abs(now[index] ?? 0));
    const shifted = at(
      moved(
        now,
        free,
        free.map((_, other) => (other === column ? width : 0)),
      ),
    );
    return shifted.error.map((value, row) => (value - (error[row] ?? 0)) / width);
  });
  return free.map((_, row) => columns.map((column) => column[row] ?? 0));
}

function nearer<Cycle>(
  at: (now: Means) => Trial<Cycle>,
  { now, error }: Trial<Cycle>,
  free: readonly number[],
  slopes: Slopes,
): Trial<Cycle> | null {
  const full = solveLinear(slopes.map((row, index) => [...row, -(error[index] ?? 0)]));
  if (full === null) return null;
  for (let halving = 0, share = 1; halving < mostHalvings; halving++, share /= 2) {
    const trial = at(
      moved(
        now,
        free,
        full.map((value) => share * value),
      ),
    );
    if (sizeOf(trial.error) < sizeOf(error)) return trial;
  }
  return null;
}

/** Slopes that agree with the step just made and change as little as possible. */
function carriedOn<Cycle>(
  slopes: Slopes,
  before: Trial<Cycle>,
  after: Trial<Cycle>,
  free: readonly number[],
): number[][] {
  const step = free.map((index) => (after.now[index] ?? 0) - (before.now[index] ?? 0));
  const square = step.reduce((sum, value) => sum + value * value, 0);
  return slopes.map((row, index) => {
    const foreseen = row.reduce((sum, slope, column) => sum + slope * (step[column] ?? 0), 0);
    const missed = (after.error[index] ?? 0) - (before.error[index] ?? 0) - foreseen;
    return row.map((slope, column) => slope + (missed * (step[column] ?? 0)) / square);
  });
}
