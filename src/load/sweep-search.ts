import { atTheEnd, sweepBasis } from './messages.ts';
import { computed, type Proposal } from './proposal.ts';
import type { SweepRow } from './types.ts';

/** A sweep with at least one load. */
type Rows = readonly [SweepRow, ...SweepRow[]];

export const hasRows = (sweep: readonly SweepRow[]): sweep is Rows => sweep.length > 0;

/** The load of a sweep with the least cost; none at an end of the range, where nothing is proven. */
export function leastInSweep(
  sweep: Rows,
  { method, short }: Pick<Proposal, 'method' | 'short'>,
  cost: (row: SweepRow) => number,
): Proposal {
  const costs = sweep.map(cost);
  const index = costs.indexOf(Math.min(...costs));
  const loadOhm = sweep[index]?.loadOhm ?? sweep[0].loadOhm;
  const edge = index === 0 || index === sweep.length - 1;
  return computed({
    ...{ method, short, loadOhm: edge ? null : loadOhm },
    basis: edge ? atTheEnd(loadOhm) : sweepBasis(...rangeOf(sweep)),
  });
}

/** Number of loads, the lowest and the highest. */
export function rangeOf(sweep: Rows): [number, number, number] {
  return [sweep.length, sweep[0].loadOhm, (sweep.at(-1) ?? sweep[0]).loadOhm];
}
