import { kneeVoltage } from './knee.ts';
import { crossingBasis, kneeBasis, neverEqual, noKnee, noPositiveLoad } from './messages.ts';
import { computed, type Proposal, withOutcome } from './proposal.ts';
import { sheetLoads } from './sheet-loads.ts';
import { sweepLoads } from './sweep.ts';
import { hasRows, leastInSweep, rangeOf } from './sweep-search.ts';
import type { Candidate, RestingStage, SmallSignal, SweepRow, TypicalOperation } from './types.ts';

const handbook = "Radiotron Designer's Handbook, 4th ed., chapter 13 (from memory), and algebra";

/**
 * Loads that well-founded rules propose for a stage with an output transformer, each with what the model
 * gives there at the described drive or at the largest undisturbed one.
 */
export function candidateLoads(of: {
  stage: RestingStage;
  small: SmallSignal;
  triode: boolean;
  sweep: readonly SweepRow[];
  describedV: number | null;
  /** What data sheets print for this tube in this connection. */
  typical: readonly TypicalOperation[];
  /** Tubes in parallel. */
  count: number;
}): Candidate[] {
  const { stage, small, triode, sweep, describedV, typical, count } = of;
  const byRule = triode ? triodeRules(stage, small) : [kneeRule(stage)];
  const { plateV, screenV, plateA } = stage.rest;
  const tube = { plateV, screenV: triode ? null : screenV, plateA: plateA / count };
  const printed = sheetLoads(typical, tube, { use: 'single-ended class A', triode, count });
  return [...byRule, ...printed, ...searches(sweep)].map((proposal) => {
    const loads = proposal.loadOhm === null ? [] : [proposal.loadOhm];
    return withOutcome(proposal, sweepLoads(stage, loads, describedV)[0]);
  });
}

function triodeRules({ rest }: RestingStage, { rpOhm }: SmallSignal): Proposal[] {
  if (rpOhm === null) return [];
  const swing = rest.plateV / rest.plateA - 2 * rpOhm;
  return [
    {
      method: 'plate voltage over current, less twice rp',
      short: 'U/I − 2rp',
      loadOhm: swing > 0 ? swing : null,
      basis: swing > 0 ? 'reaches 0 V at the grid at twice the current at rest' : noPositiveLoad(),
      source: 'geometry of the load line with a straight zero-bias curve through the origin',
      status: 'derived',
    },
    {
      method: 'equal to rp',
      short: 'rp',
      loadOhm: rpOhm,
      basis: 'most power for a given small grid swing',
      source: `power transfer from a source of resistance rp; ${handbook}`,
      status: 'derived',
    },
    {
      method: 'twice rp',
      short: '2 rp',
      loadOhm: 2 * rpOhm,
      basis: 'most undistorted power at this plate voltage with the bias free to choose',
      source: handbook,
      status: 'derived',
    },
  ];
}

/**
 * (Va − Vmin)/Ia, with Vmin where the zero-bias curve carries twice the current at rest.
 * @source geometry of the load line
 */
function kneeRule({ device, rest }: RestingStage): Proposal {
  const kneeV = kneeVoltage(device, rest);
  return {
    method: 'from rest to the knee of the zero-bias curve',
    short: 'knee',
    loadOhm: kneeV === null ? null : (rest.plateV - kneeV) / rest.plateA,
    basis: kneeV === null ? noKnee() : kneeBasis(kneeV),
    source: 'geometry of the load line',
    status: 'derived',
  };
}

function searches(sweep: readonly SweepRow[]): Proposal[] {
  if (!hasRows(sweep)) return [];
  const least = (method: string, short: string, cost: (row: SweepRow) => number) =>
    leastInSweep(sweep, { method, short }, cost);
  const equalOhm = crossing(sweep);
  return [
    least('largest power', 'most power', (row) => -row.powerW),
    least('least second harmonic', 'least H2', (row) => row.secondRatio),
    least('least third harmonic', 'least H3', (row) => row.thirdRatio),
    least('least total distortion', 'least THD', (row) => row.thdRatio),
    computed({
      method: 'second and third harmonic equal',
      short: 'H2 = H3',
      loadOhm: equalOhm,
      basis: equalOhm === null ? neverEqual() : crossingBasis(...rangeOf(sweep)),
    }),
  ];
}

/** The first load at which second and third harmonic are equal, interpolated on a logarithmic scale. */
function crossing(sweep: readonly SweepRow[]): number | null {
  const excess = ({ secondRatio, thirdRatio }: SweepRow) => Math.log(secondRatio / thirdRatio);
  for (const [index, row] of sweep.entries()) {
    const next = sweep[index + 1];
    if (!next || !(excess(row) * excess(next) <= 0)) continue;
    const share = excess(row) / (excess(row) - excess(next));
    return Number.isFinite(share) ? row.loadOhm * (next.loadOhm / row.loadOhm) ** share : row.loadOhm;
  }
  return null;
}
