import { extent, type Run } from '../charts/readings.ts';
import { cutRun } from './cut.ts';
import { drawnAs, runsOf } from './levels.ts';
import type { Trace } from './types.ts';

/** From the highest of the first places to the lowest of the last; null where no place is common to all. */
export function commonRange(traces: readonly Trace[]): [number, number] | null {
  const spans = traces.flatMap((trace) => extent(runsOf(trace).flatMap(({ x }) => x)) ?? []);
  const from = Math.max(...spans.filter((_, i) => i % 2 === 0));
  const to = Math.min(...spans.filter((_, i) => i % 2 === 1));
  return from < to ? [from, to] : null;
}

/**
 * Mean of a level in decibels over the logarithm of frequency, between two places: the exact mean of the line as it is
 * drawn. Gaps count neither in the sum nor in the width; null where there is nothing between the places.
 */
export function meanLevel(trace: Trace, [from, to]: [number, number]): number | null {
  const pieces = runsOf(trace).map((run) => areaOf(cutRun(run, [from, to], drawnAs(trace))));
  const width = pieces.reduce((sum, piece) => sum + piece.width, 0);
  return width > 0 ? pieces.reduce((sum, piece) => sum + piece.area, 0) / width : null;
}

function areaOf({ x, y }: Run): { area: number; width: number } {
  let area = 0;
  let width = 0;
  for (let i = 1; i < x.length; i++) {
    const step = Math.log((x[i] ?? 1) / (x[i - 1] ?? 1));
    area += (step * ((y[i] ?? 0) + (y[i - 1] ?? 0))) / 2;
    width += step;
  }
  return { area, width };
}
