import type { Candidate, OfferedLoad, SweepRow, TypicalOperation } from '../types.ts';
import { landed, type VariedStages } from './landing.ts';
import { offeredRules } from './offered-loads.ts';
import type { RuleStage } from './rule-stage.ts';
import { formulaRules, type Rule } from './rules.ts';
import { type StatedAims, statedRules } from './stated-rules.ts';

/** What the rules of load are asked with, of any kind of stage. */
export interface AskedWith {
  /** True without a separately fed screen. */
  triode: boolean;
  /** The loads of the sweep, those without a swing included. */
  loads: readonly number[];
  sweep: readonly SweepRow[];
  describedV: number | null;
  aims: StatedAims;
  /** What data sheets print for this tube in this connection. */
  typical: readonly TypicalOperation[];
  /** Tubes in parallel, of a side in a pair. */
  count: number;
  /** The loads that transformers at hand make. */
  offers: readonly OfferedLoad[];
}

/**
 * The answers of all rules: formulas, searches over the sweep, what is stated and the transformers at hand, through
 * whose primary `directA` flows at rest; null where both halves balance it.
 */
export function ruleAnswers(
  stages: VariedStages,
  searches: readonly Rule[],
  { loads, sweep, aims, offers, directA }: AskedWith & { directA: number | null },
): Candidate[] {
  const { here, voltage, current } = stages;
  const rules = [
    ...formulaRules(here),
    ...searches,
    ...statedRules(aims, here, { loads, sweep }),
    ...offeredRules(offers, directA),
  ];
  const ends = { voltage: voltage && withoutEnds(voltage), current: current && withoutEnds(current) };
  return landed(rules, { here, ...ends }, sweep);
}

/** Where traced curves end before the swing does, less distortion says nothing of the load. */
function withoutEnds(stage: RuleStage): RuleStage {
  const rowAt = (loadOhm: number) => {
    const row = stage.rowAt(loadOhm);
    return row?.limitedBy === 'traced curves' ? null : row;
  };
  return { ...stage, rowAt };
}
