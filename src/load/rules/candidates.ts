import { smallSignal } from '../device/small-signal.ts';
import { kneeBasis, noKnee, noPositiveLoad } from '../messages.ts';
import { drivenTube } from '../stage/driven.ts';
import { sweepLoads } from '../stage/sweep.ts';
import type { Candidate, RestingStage, SmallSignal, SweepRow } from '../types.ts';
import { kneeVoltage } from './knee.ts';
import { ofRule, type Proposal } from './proposal.ts';
import { type AskedWith, ruleAnswers } from './rule-answers.ts';
import { type RuleStage, remembered } from './rule-stage.ts';
import { equalRule, leastSecond, leastThird, leastTotal, mostPower, type Rule, searchRule } from './rules.ts';
import { type SheetUse, sheetLoads } from './sheet-loads.ts';
import type { Varied } from './varied-rest.ts';

const handbook = "Radiotron Designer's Handbook, 4th ed., chapter 13 (from memory), and algebra";

/** What the rules are asked about a stage with an output transformer. */
export interface LoadQuestion extends AskedWith {
  /** The stage as it is and with one condition 10 % up. */
  stages: { here: RestingStage } & Record<Varied, RestingStage | null>;
}

/**
 * Loads that well-founded rules propose for a stage with an output transformer and those that transformers at hand
 * make, each with what the model gives there at the described drive or at the largest undisturbed one.
 */
export function candidateLoads(question: LoadQuestion): Candidate[] {
  const { stages, loads, sweep } = question;
  const moved = (varied: Varied) => stages[varied] && seenByRules(stages[varied], question);
  const here = seenByRules(stages.here, question, sweep);
  const seen = { here, voltage: moved('voltage'), current: moved('current') };
  const directA = stages.here.rest.plateA;
  return ruleAnswers(seen, searches(loads, sweep), { ...question, directA });
}

function seenByRules(
  stage: RestingStage,
  { triode, describedV, stages, typical, count }: LoadQuestion,
  known: readonly SweepRow[] = [],
): RuleStage {
  const { rest } = stage;
  const use: SheetUse = {
    ...{ use: 'single-ended class A', triode, count },
    nearV: stages.here.rest.plateV,
  };
  const tube = { plateV: rest.plateV, screenV: triode ? null : rest.screenV, plateA: rest.plateA / count };
  const byRule = triode ? triodeRules(stage, smallSignal(stage.device, rest)) : [kneeRule(stage)];
  return {
    formulas: [...byRule, ...sheetLoads(typical, tube, use)],
    rowAt: remembered((loadOhm) => sweepLoads(stage, [loadOhm], describedV)[0] ?? null, known),
    driven: remembered((loadOhm) => drivenTube(stage, loadOhm, null)),
  };
}

function triodeRules({ rest }: RestingStage, { rpOhm }: SmallSignal): Proposal[] {
  if (rpOhm === null) return [];
  const swing = rest.plateV / rest.plateA - 2 * rpOhm;
  return [
    ofRule({
      method: 'plate voltage over current, less twice rp',
      short: 'U/I − 2rp',
      loadOhm: swing > 0 ? swing : null,
      basis: swing > 0 ? 'reaches 0 V at the grid at twice the current at rest' : noPositiveLoad(),
      source: 'geometry of the load line with a straight zero-bias curve through the origin',
      status: 'derived',
    }),
    ofRule({
      method: 'equal to rp',
      short: 'rp',
      loadOhm: rpOhm,
      basis: 'most power for a given small grid swing',
      source: `power transfer from a source of resistance rp; ${handbook}`,
      status: 'derived',
    }),
    ofRule({
      method: 'twice rp',
      short: '2 rp',
      loadOhm: 2 * rpOhm,
      basis: 'most undistorted power at this plate voltage with the bias free to choose',
      source: handbook,
      status: 'derived',
    }),
  ];
}

/**
 * (Va − Vmin)/Ia, with Vmin where the zero-bias curve carries twice the current at rest.
 * @source geometry of the load line
 */
function kneeRule({ device, rest }: RestingStage): Proposal {
  const kneeV = kneeVoltage(device, rest);
  return ofRule({
    method: 'from rest to the knee of the zero-bias curve',
    short: 'knee',
    loadOhm: kneeV === null ? null : (rest.plateV - kneeV) / rest.plateA,
    basis: kneeV === null ? noKnee() : kneeBasis(kneeV),
    source: 'geometry of the load line',
    status: 'derived',
  });
}

function searches(loads: readonly number[], [first, ...others]: readonly SweepRow[]): Rule[] {
  if (!first) return [];
  const swept = { loads, rows: [first, ...others] } as const;
  return [
    ...[mostPower, leastSecond, leastThird, leastTotal].map((search) => searchRule(search, swept)),
    equalRule(swept),
  ];
}
