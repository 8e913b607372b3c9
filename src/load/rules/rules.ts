import { atTheEnd, crossingBasis, neverEqual, sweepBasis } from '../messages.ts';
import { type AlongLoads, leastAmong, leastNear, zeroNear } from './follow-search.ts';
import { computed, type LoadRow, type Proposal } from './proposal.ts';
import type { RuleStage } from './rule-stage.ts';

/** One answer to the question of the load, and how to find it again once the point of rest has moved a little. */
export interface Rule {
  proposal: Proposal;
  /** Null where the rule has no load there. */
  follow(moved: RuleStage): number | null;
  /** What the stage gives there where that is not at full drive. */
  outcome?: LoadRow;
}

/** The rules that are formulas. */
export const formulaRules = ({ formulas }: RuleStage): Rule[] =>
  formulas.map((proposal) => ({
    proposal,
    follow: (moved) => moved.formulas.find(({ method }) => method === proposal.method)?.loadOhm ?? null,
  }));

/** A load that does not depend on the point of rest. */
export const fixedLoad = (proposal: Proposal): Rule => ({ proposal, follow: () => proposal.loadOhm });

/** A rule that is a search over the range of loads. */
export interface LoadSearch {
  method: string;
  short: string;
  /** What it makes least. Distortion enters by its square, which is smooth where a harmonic passes through zero. */
  cost(row: LoadRow): number;
}

const square = (value: number) => value * value;
/** What is below the rounding of a solution counts as that. */
const decades = (ratio: number) => Math.log10(Math.max(ratio, 1e-12));

export const mostPower: LoadSearch = {
  method: 'largest power',
  short: 'most power',
  cost: ({ powerW }) => -powerW,
};
export const leastSecond: LoadSearch = {
  method: 'least second harmonic',
  short: 'least H2',
  cost: ({ secondRatio }) => square(secondRatio),
};
export const leastThird: LoadSearch = {
  method: 'least third harmonic',
  short: 'least H3',
  cost: ({ thirdRatio }) => square(thirdRatio),
};
export const leastTotal: LoadSearch = {
  method: 'least total distortion',
  short: 'least THD',
  cost: ({ thdRatio }) => square(thdRatio),
};

/** A range of loads with what the stage gives at each of them that it has a swing into; at least one. */
export interface SweptLoads {
  loads: readonly number[];
  rows: readonly [LoadRow, ...LoadRow[]];
}

/** The load of least cost of a sweep; none at an end of the range, where nothing is proven. */
export function searchRule({ method, short, cost }: LoadSearch, { loads, rows }: SweptLoads): Rule {
  const best = rows.reduce((least, row) => (cost(row) < cost(least) ? row : least), rows[0]);
  const last = rows.at(-1) ?? rows[0];
  const edge = best === rows[0] || best === last;
  const start = loads.indexOf(best.loadOhm);
  return {
    proposal: computed({
      ...{ method, short, loadOhm: edge ? null : best.loadOhm },
      basis: edge ? atTheEnd(best.loadOhm) : sweepBasis(rows.length, rows[0].loadOhm, last.loadOhm),
    }),
    follow: (moved) => {
      if (edge) return null;
      const costs = along(loads, (ohm) => moved.rowAt(ohm), cost);
      return leastNear(loads, costs, leastAmong(loads, costs, start).index);
    },
  };
}

/** The first load of a sweep at which second and third harmonic are equal, interpolated on logarithmic scales. */
export function equalRule({ loads, rows }: SweptLoads): Rule {
  const excess = ({ secondRatio, thirdRatio }: LoadRow) => decades(secondRatio) - decades(thirdRatio);
  const index = rows.findIndex((row, k) => {
    const next = rows[k + 1];
    return next !== undefined && excess(row) * excess(next) <= 0;
  });
  const at = rows[index];
  const last = rows.at(-1) ?? rows[0];
  const follow = (rowAt: (loadOhm: number) => LoadRow | null) =>
    at ? zeroNear(loads, along(loads, rowAt, excess), loads.indexOf(at.loadOhm)) : null;
  const loadOhm = follow((ohm) => rows.find((row) => row.loadOhm === ohm) ?? null);
  return {
    proposal: computed({
      ...{ method: 'second and third harmonic equal', short: 'H2 = H3', loadOhm },
      basis: loadOhm === null ? neverEqual() : crossingBasis(rows.length, rows[0].loadOhm, last.loadOhm),
    }),
    follow: (moved) => follow((ohm) => moved.rowAt(ohm)),
  };
}

/** A value of what a stage gives at the loads of a range, by their place. */
export function along(
  loads: readonly number[],
  rowAt: (loadOhm: number) => LoadRow | null,
  value: (row: LoadRow) => number,
): AlongLoads {
  return (index) => {
    const loadOhm = loads[index];
    const row = loadOhm === undefined ? null : rowAt(loadOhm);
    const found = row ? value(row) : Number.NaN;
    return Number.isFinite(found) ? found : null;
  };
}
