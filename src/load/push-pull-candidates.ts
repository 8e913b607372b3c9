import { kneeVoltage } from './knee.ts';
import { kneeBasis, noKnee } from './messages.ts';
import { type Proposal, withOutcome } from './proposal.ts';
import type { PairCycle } from './push-pull-cycle.ts';
import { pairDrive } from './push-pull-drive.ts';
import { noClassAGeometry } from './push-pull-messages.ts';
import { pairOutput } from './push-pull-signal.ts';
import type { PairAtRest } from './push-pull-stage.ts';
import { sheetLoads } from './sheet-loads.ts';
import { loadRow } from './sweep.ts';
import { hasRows, leastInSweep } from './sweep-search.ts';
import type { Candidate, Device, OperatingPoint, SweepRow, TypicalOperation } from './types.ts';

/** A pair with what its loads are computed from. */
export interface PairLoads {
  pair: PairAtRest;
  /** Of one tube, and how many of them a side has. */
  point: OperatingPoint;
  count: number;
  triode: boolean;
  describedV: number | null;
}

/** The pair at the described drive or the largest undisturbed one into each load; loads without one are left out. */
export function sweepPair(loads: readonly number[], { pair, describedV }: PairLoads): SweepRow[] {
  let near: PairCycle | null = null;
  return loads.flatMap((loadOhm) => {
    const found = pairDrive(pair, loadOhm, describedV, near);
    near = found?.cycle ?? near;
    const output = found && pairOutput(found.cycle);
    return output ? [{ ...loadRow(loadOhm, output), limitedBy: found.limitedBy }] : [];
  });
}

/** Loads from plate to plate that well-founded rules propose, each with what the model gives there. */
export function pairCandidates(
  of: PairLoads,
  {
    sweep,
    device,
    typical,
  }: { sweep: readonly SweepRow[]; device: Device; typical: readonly TypicalOperation[] },
): Candidate[] {
  const rules = of.triode ? triodeRules(of) : [kneeRule(of, device)];
  const { triode, count, point } = of;
  const printed = sheetLoads(typical, point, { use: 'push-pull class AB1', triode, count });
  return [...rules, ...printed, ...searches(sweep)].map((proposal) => {
    const loads = proposal.loadOhm === null ? [] : [proposal.loadOhm];
    return withOutcome(proposal, sweepPair(loads, of)[0]);
  });
}

const transfer = 'power transfer from a source of resistance rp';

function triodeRules({ point: { plateV, plateA, rpOhm }, count }: PairLoads): Proposal[] {
  if (rpOhm === null) return [];
  const sideOhm = rpOhm / count;
  const swing = plateV / (count * plateA) - 2 * sideOhm;
  return [
    {
      method: 'class A on each side: twice plate voltage over current, less four times rp',
      short: '2 U/I − 4rp',
      loadOhm: swing > 0 ? 2 * swing : null,
      basis:
        swing > 0 ? 'each side reaches 0 V at the grid at twice its current at rest' : noClassAGeometry(),
      source: 'geometry of the load line of one side, which sees half the load; straight zero-bias curve',
      status: 'derived',
    },
    {
      method: 'twice rp',
      short: '2 rp',
      loadOhm: 2 * sideOhm,
      basis: 'most power for a given small grid swing while both sides conduct',
      source: `${transfer}, each side seeing half the load`,
      status: 'derived',
    },
    {
      method: 'four times rp',
      short: '4 rp',
      loadOhm: 4 * sideOhm,
      basis: 'most power for a given grid swing where one side works alone, with rp as at rest',
      source: `${transfer}, one side seeing a quarter of the load`,
      status: 'derived',
    },
  ];
}

/**
 * Twice (Va − Vmin)/Ia of one side, with Vmin where its zero-bias curve carries twice its current at rest.
 * @source geometry of the load line of one side, which sees half the load while both conduct
 */
function kneeRule({ pair: { rest } }: PairLoads, device: Device): Proposal {
  const { plateA, plateV } = rest;
  const kneeV = kneeVoltage(device, rest);
  return {
    method: 'class A on each side, from rest to the knee of the zero-bias curve',
    short: 'knee',
    loadOhm: kneeV === null ? null : (2 * (plateV - kneeV)) / plateA,
    basis: kneeV === null ? noKnee() : kneeBasis(kneeV),
    source: 'geometry of the load line of one side, which sees half the load',
    status: 'derived',
  };
}

function searches(sweep: readonly SweepRow[]): Proposal[] {
  if (!hasRows(sweep)) return [];
  const least = (method: string, short: string, cost: (row: SweepRow) => number) =>
    leastInSweep(sweep, { method, short }, cost);
  return [
    least('largest power', 'most power', ({ powerW }) => -powerW),
    least('least third harmonic', 'least H3', ({ thirdRatio }) => thirdRatio),
    least('least total distortion', 'least THD', ({ thdRatio }) => thdRatio),
  ];
}
