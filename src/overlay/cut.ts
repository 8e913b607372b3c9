import type { Drawn } from '../charts/crossings.ts';
import type { Run } from '../charts/readings.ts';
import { readRun } from './levels.ts';

/** The part of a run between two places, with a reading at each of them that the run reaches; it may be empty. */
export function cutRun(run: Run, [from, to]: readonly [number, number], drawn: Drawn): Run {
  const { x, y } = run;
  const inner = [...x.keys()].filter((i) => (x[i] ?? 0) > from && (x[i] ?? 0) < to);
  const point = (place: number, value: number | null | undefined) =>
    value === null || value === undefined ? [] : [{ place, value }];
  const points = [
    ...point(from, readRun(run, from, drawn)),
    ...inner.flatMap((i) => point(x[i] ?? 0, y[i])),
    ...point(to, readRun(run, to, drawn)),
  ];
  return { x: points.map(({ place }) => place), y: points.map(({ value }) => value) };
}
