import { quantityText } from '../../quantity/index.ts';
import { atTheEnd, distortionNowhere, powerNowhere, statedBasis } from '../messages.ts';
import { atDistortion, atPower, type DrivenPoint, type PowerStage } from '../stage/power-stage.ts';
import { loadRow } from '../stage/sweep.ts';
import { leastAmong, leastNear } from './follow-search.ts';
import { computed, type LoadRow } from './proposal.ts';
import { type RuleStage, remembered } from './rule-stage.ts';
import { along, type LoadSearch, leastTotal, mostPower, type Rule } from './rules.ts';

/** What the amplifier is to do, as its maker states it; null: not stated. */
export interface StatedAims {
  powerW: number | null;
  distortionRatio: number | null;
}

/** The load of least distortion at a stated power, and that of most power at a stated distortion. */
export function statedRules(
  { powerW, distortionRatio }: StatedAims,
  here: RuleStage,
  { loads, sweep }: { loads: readonly number[]; sweep: readonly LoadRow[] },
): Rule[] {
  const [first, ...others] = sweep;
  if (!first) return [];
  const strongest = others.reduce((most, row) => (row.powerW > most.powerW ? row : most), first);
  const range = { loads, strongest: loads.indexOf(strongest.loadOhm) };
  const percent = (ratio: number) => quantityText(100 * ratio, '%', 2);
  return [
    ...(powerW === null ? [] : [leastAtPower(quantityText(powerW, 'W'), powerW)]),
    ...(distortionRatio === null ? [] : [mostAtDistortion(percent(distortionRatio), distortionRatio)]),
  ].map((search) => statedRule(search, here, range));
}

/** A search at drives of its own for each load. */
interface StatedSearch extends LoadSearch {
  /** The drive that does what is stated; null where none does. */
  drive(stage: PowerStage): DrivenPoint | null;
  /** Why there is no load that does what is stated. */
  nowhere: string;
}

const leastAtPower = (power: string, powerW: number): StatedSearch => ({
  method: `${leastTotal.method} at ${power}`,
  short: `${leastTotal.short} at ${power}`,
  cost: leastTotal.cost,
  drive: (stage) => atPower(stage, powerW),
  nowhere: powerNowhere(),
});

const mostAtDistortion = (distortion: string, ratio: number): StatedSearch => ({
  method: `${mostPower.method} at ${distortion} total distortion`,
  short: `${mostPower.short} at ${distortion}`,
  cost: mostPower.cost,
  drive: (stage) => upToDistortion(stage, ratio),
  nowhere: distortionNowhere(),
});

/** Shares of the full drive between which the stated distortion is looked for. */
const shares = [1 / 16, 1 / 4, 1 / 2];

/** Full drive where that distorts no more than stated, and less of it elsewhere. */
function upToDistortion(stage: PowerStage, ratio: number): DrivenPoint | null {
  if (stage.full.thdRatio <= ratio) return stage.full;
  const below = shares.flatMap((share) => stage.at(share * stage.full.driveV) ?? []);
  return atDistortion(stage, [...below, stage.full], ratio);
}

interface Range {
  loads: readonly number[];
  /** Place of the load of most power. */
  strongest: number;
}

function statedRule(search: StatedSearch, here: RuleStage, { loads, strongest }: Range): Rule {
  const rowsOf = (stage: RuleStage) =>
    remembered((loadOhm): LoadRow | null => {
      const driven = stage.driven(loadOhm);
      const point = driven && search.drive(driven);
      return point && loadRow(loadOhm, point);
    });
  const rowAt = rowsOf(here);
  const { method, short, cost, nowhere } = search;
  const best = leastAmong(loads, along(loads, rowAt, cost), strongest);
  const outcome = rowAt(loads[best.index] ?? Number.NaN);
  if (!outcome)
    return { proposal: computed({ method, short, loadOhm: null, basis: nowhere }), follow: () => null };
  const edge = best.index === 0 || best.index === loads.length - 1;
  return {
    proposal: computed({
      ...{ method, short, loadOhm: edge ? null : outcome.loadOhm },
      basis: edge ? atTheEnd(outcome.loadOhm) : statedBasis(best.tried, loads[0] ?? 0, loads.at(-1) ?? 0),
    }),
    follow: (moved) => {
      const rows = moved === here ? rowAt : rowsOf(moved);
      return edge ? null : leastNear(loads, along(loads, rows, cost), best.index);
    },
    outcome,
  };
}
