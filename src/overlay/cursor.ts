import type { Axis } from '../charts/axis.ts';
import { readAt } from './levels.ts';
import type { Trace } from './types.ts';

const finest = 600;

/** The places that a cursor steps through: those of all readings, ascending; at most 600 of them, evenly by count. */
export function cursorPlaces(traces: readonly Trace[]): number[] {
  const all = [...new Set(traces.flatMap(({ x, y }) => x.filter((place, i) => place > 0 && y[i] !== null)))];
  all.sort((a, b) => a - b);
  const step = Math.max(1, all.length / finest);
  const count = Math.min(all.length, finest);
  return Array.from({ length: count }, (_, i) => all[Math.floor(i * step)] ?? 0);
}

/** Index of the place that lies nearest on an axis, a logarithmic one unless stated. */
export function nearestPlace(places: readonly number[], wanted: number, kind: Axis['kind'] = 'log'): number {
  const distance = kind === 'log' ? ratio : difference;
  let nearest = 0;
  for (const [i, place] of places.entries()) {
    if (distance(place, wanted) < distance(places[nearest] ?? 0, wanted)) nearest = i;
  }
  return nearest;
}

const ratio = (a: number, b: number): number => Math.abs(Math.log(a / b));
const difference = (a: number, b: number): number => Math.abs(a - b);

/** A trace's value at the cursor: read or interpolated; null outside of its readings. */
export interface CursorValue {
  trace: Trace;
  value: number | null;
}

/** What every trace reads at a place. */
export const valuesAt = (traces: readonly Trace[], place: number): CursorValue[] =>
  traces.map((trace) => ({ trace, value: readAt(trace, place) }));
