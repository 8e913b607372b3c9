import { type Axis, drawable } from './axis.ts';
import type { Readings } from './types.ts';

/** Neighbouring readings that can be joined by a line. */
export interface Run {
  x: number[];
  y: number[];
}

/** Readings sorted into what can be drawn and what cannot. */
export interface Sorted {
  runs: Run[];
  /** Readings without a value, or with one that is not finite. */
  missing: number;
  /** Readings at or below zero on a logarithmic axis. */
  notPositive: number;
}

interface Kinds {
  x: Axis['kind'];
  y: Axis['kind'];
}

/** Cuts readings into runs at every one that has no place on the axes, and counts those by reason. */
export function sortReadings(x: Readings, y: Readings, kinds: Kinds): Sorted {
  const sorted: Sorted = { runs: [], missing: 0, notPositive: 0 };
  let run: Run | null = null;
  for (let i = 0; i < Math.max(x.length, y.length); i++) {
    const [left, up] = [x[i], y[i]];
    if (drawable(kinds.x, left) && drawable(kinds.y, up)) {
      run ??= startRun(sorted.runs);
      run.x.push(left);
      run.y.push(up);
    } else {
      run = null;
      if (drawable('linear', left) && drawable('linear', up)) sorted.notPositive++;
      else sorted.missing++;
    }
  }
  return sorted;
}

/** All readings of the runs in one, in order. */
export function joined(runs: readonly Run[]): Run {
  return { x: runs.flatMap((run) => run.x), y: runs.flatMap((run) => run.y) };
}

/** Lowest and highest of some values; null when there are none. */
export function extent(values: Iterable<number>): [number, number] | null {
  let low = Infinity;
  let high = -Infinity;
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return low <= high ? [low, high] : null;
}

function startRun(runs: Run[]): Run {
  const run: Run = { x: [], y: [] };
  runs.push(run);
  return run;
}
