import { kneeBasis, noKnee } from '../messages.ts';
import { kneeVoltage } from '../rules/knee.ts';
import { ofRule, type Proposal } from '../rules/proposal.ts';
import { type AskedWith, ruleAnswers } from '../rules/rule-answers.ts';
import { type RuleStage, remembered } from '../rules/rule-stage.ts';
import { leastThird, leastTotal, mostPower, type Rule, searchRule } from '../rules/rules.ts';
import { type SheetUse, sheetLoads } from '../rules/sheet-loads.ts';
import type { Varied } from '../rules/varied-rest.ts';
import { drivenPair } from '../stage/driven.ts';
import { loadRow } from '../stage/sweep.ts';
import type { Candidate, Device, OperatingPoint, SweepRow } from '../types.ts';
import type { PairCycle } from './push-pull-cycle.ts';
import { pairDrive } from './push-pull-drive.ts';
import { noClassAGeometry } from './push-pull-messages.ts';
import { pairOutput } from './push-pull-signal.ts';
import type { PairAtRest } from './push-pull-stage.ts';

/** A pair at rest with what the rules that are formulas take. */
export interface PairForRules {
  pair: PairAtRest;
  /** The mean of both sides. */
  device: Device;
  /** Of one tube. */
  point: OperatingPoint;
}

/** What the rules are asked about a pair. */
export interface PairQuestion extends AskedWith {
  /** The pair as it is and with one condition 10 % up. */
  pairs: { here: PairForRules } & Record<Varied, PairForRules | null>;
}

/** The pair at the described drive or the largest undisturbed one into each load; loads without one are left out. */
export function sweepPair(
  loads: readonly number[],
  { pair, describedV }: { pair: PairAtRest; describedV: number | null },
): SweepRow[] {
  const rowAt = pairRows(pair, describedV);
  return loads.flatMap((loadOhm) => rowAt(loadOhm) ?? []);
}

/** What a pair gives at one load after another, each found from the one before. */
function pairRows(pair: PairAtRest, describedV: number | null): (loadOhm: number) => SweepRow | null {
  let near: PairCycle | null = null;
  return (loadOhm) => {
    const found = pairDrive(pair, loadOhm, describedV, near);
    near = found?.cycle ?? near;
    const output = found && pairOutput(found.cycle);
    return output ? { ...loadRow(loadOhm, output), limitedBy: found.limitedBy } : null;
  };
}

/**
 * Loads from plate to plate that well-founded rules propose and those that transformers at hand make, each with what
 * the model gives there.
 */
export function pairCandidates(question: PairQuestion): Candidate[] {
  const { pairs, loads, sweep } = question;
  const moved = (varied: Varied) => pairs[varied] && seenByRules(pairs[varied], question);
  const here = seenByRules(pairs.here, question, sweep);
  const seen = { here, voltage: moved('voltage'), current: moved('current') };
  return ruleAnswers(seen, searches(loads, sweep), { ...question, directA: null });
}

function seenByRules(
  of: PairForRules,
  { triode, count, describedV, pairs, typical }: PairQuestion,
  known: readonly SweepRow[] = [],
): RuleStage {
  const use: SheetUse = {
    ...{ use: 'push-pull class AB1', triode, count },
    nearV: pairs.here.point.plateV,
  };
  const byRule = triode ? triodeRules(of.point, count) : [kneeRule(of)];
  return {
    formulas: [...byRule, ...sheetLoads(typical, of.point, use)],
    rowAt: remembered(pairRows(of.pair, describedV), known),
    driven: remembered((loadOhm) => drivenPair(of.pair, loadOhm, null)),
  };
}

const transfer = 'power transfer from a source of resistance rp';

function triodeRules({ plateV, plateA, rpOhm }: OperatingPoint, count: number): Proposal[] {
  if (rpOhm === null) return [];
  const sideOhm = rpOhm / count;
  const swing = plateV / (count * plateA) - 2 * sideOhm;
  return [
    ofRule({
      method: 'class A on each side: twice plate voltage over current, less four times rp',
      short: '2 U/I − 4rp',
      loadOhm: swing > 0 ? 2 * swing : null,
      basis:
        swing > 0 ? 'each side reaches 0 V at the grid at twice its current at rest' : noClassAGeometry(),
      source: 'geometry of the load line of one side, which sees half the load; straight zero-bias curve',
      status: 'derived',
    }),
    ofRule({
      method: 'twice rp',
      short: '2 rp',
      loadOhm: 2 * sideOhm,
      basis: 'most power for a given small grid swing while both sides conduct',
      source: `${transfer}, each side seeing half the load`,
      status: 'derived',
    }),
    ofRule({
      method: 'four times rp',
      short: '4 rp',
      loadOhm: 4 * sideOhm,
      basis: 'most power for a given grid swing where one side works alone, with rp as at rest',
      source: `${transfer}, one side seeing a quarter of the load`,
      status: 'derived',
    }),
  ];
}

/**
 * Twice (Va − Vmin)/Ia of one side, with Vmin where its zero-bias curve carries twice its current at rest.
 * @source geometry of the load line of one side, which sees half the load while both conduct
 */
function kneeRule({ pair: { rest }, device }: PairForRules): Proposal {
  const { plateA, plateV } = rest;
  const kneeV = kneeVoltage(device, rest);
  return ofRule({
    method: 'class A on each side, from rest to the knee of the zero-bias curve',
    short: 'knee',
    loadOhm: kneeV === null ? null : (2 * (plateV - kneeV)) / plateA,
    basis: kneeV === null ? noKnee() : kneeBasis(kneeV),
    source: 'geometry of the load line of one side, which sees half the load',
    status: 'derived',
  });
}

function searches(loads: readonly number[], [first, ...others]: readonly SweepRow[]): Rule[] {
  if (!first) return [];
  const swept = { loads, rows: [first, ...others] } as const;
  return [mostPower, leastThird, leastTotal].map((search) => searchRule(search, swept));
}
