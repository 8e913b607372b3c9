import { multiplied } from '../device/connections.ts';
import { restOnDevice } from '../device/rest-on-device.ts';
import { stageDevice } from '../device/stage-device.ts';
import { plateMissing, positiveGrid, screenMissing } from '../messages.ts';
import { aimFaults } from '../rules/check-aims.ts';
import { faultsOf } from '../stage/check-description.ts';
import type { PlateFeed } from '../stage/operating-point.ts';
import type { Bias, Device, LoadFault, Rest, StageContext, StageDevice } from '../types.ts';
import { mismatchOutOfRange, pairLoadMissing, unbypassedPair } from './push-pull-messages.ts';
import type { PushPullDescription } from './push-pull-types.ts';

/** Two sides at rest; currents are those of a whole side, of the mean of both where they differ. */
export interface PairAtRest {
  sides: readonly [Device, Device];
  /** Whether the sides are the same. */
  alike: boolean;
  rest: Rest;
  /** Direct-current resistance of each half of the primary. */
  feedOhm: number;
  /** Common to both sides and bypassed; 0 for none. */
  cathodeOhm: number;
}

/** `device` is the mean of both sides; the load is that from plate to plate. */
export type ResolvedPair =
  | { tubes: StageDevice; device: Device; pair: PairAtRest; loadOhm: number }
  | { faults: LoadFault[] };

/** A described pair with its tubes looked up and its point of rest solved, or everything that stands in the way. */
export function resolvePair(description: PushPullDescription, { supply, tubes }: StageContext): ResolvedPair {
  const found = stageDevice(description, tubes);
  const faults = [...checkPair(description), ...biasFaults(description.bias)];
  if ('faults' in found) return { faults: [...found.faults, ...faults] };
  const { connection, device, screenV } = description;
  if (connection === 'pentode' && screenV === null) faults.push(screenMissing(device));
  const feed = feedOf(description, description.supplyV ?? supply?.plateV ?? null);
  if (feed === null) faults.push(plateMissing());
  const { loadOhm } = description;
  if (loadOhm === null) faults.push(pairLoadMissing());
  if (feed === null || loadOhm === null || faults.length > 0) return { faults };
  return atRest(description, { tubes: found.device, feed, loadOhm });
}

function atRest(
  description: PushPullDescription,
  { tubes, feed, loadOhm }: { tubes: StageDevice; feed: PlateFeed; loadOhm: number },
): ResolvedPair {
  const { bias, mismatchRatio, windingOhm } = description;
  const found = restOnDevice(tubes, { feed, bias: ofOneSide(bias) });
  if ('fault' in found) return { faults: [found.fault] };
  const { device, rest } = found;
  return {
    tubes,
    device,
    loadOhm,
    pair: {
      sides: sidesOf(device, mismatchRatio),
      alike: mismatchRatio === 0,
      rest,
      feedOhm: windingOhm ?? 0,
      cathodeOhm: bias.kind === 'cathode-resistor' ? bias.ohm : 0,
    },
  };
}

/** Two sides whose currents stand a share of their mean apart, half of it up and half down. */
export function sidesOf(device: Device, mismatchRatio: number): PairAtRest['sides'] {
  if (mismatchRatio === 0) return [device, device];
  return [multiplied(device, 1 + mismatchRatio / 2), multiplied(device, 1 - mismatchRatio / 2)];
}

/** The common cathode resistor carries both sides, so to one of them it is twice as large. */
const ofOneSide = (bias: Bias): Bias =>
  bias.kind === 'cathode-resistor' ? { ...bias, ohm: 2 * bias.ohm } : bias;

function feedOf({ plateV, windingOhm }: PushPullDescription, supplyV: number | null): PlateFeed | null {
  if (plateV !== null) return { kind: 'plate', plateV };
  return supplyV === null ? null : { kind: 'supply', supplyV, ohm: windingOhm ?? 0 };
}

function biasFaults(bias: Bias): LoadFault[] {
  if (bias.kind === 'grid' && bias.gridV > 0) return [positiveGrid(bias.gridV)];
  return bias.kind === 'cathode-resistor' && !bias.bypassed ? [unbypassedPair()] : [];
}

/** Faults of the values of a pair that no pair can have; paths lead from the stage. */
function checkPair(pair: PushPullDescription): LoadFault[] {
  const { bias, mismatchRatio } = pair;
  const path = ['bias'];
  const grid = bias.kind === 'grid' ? bias.gridV : null;
  const { powerW, statedDistortionRatio = null } = pair;
  const aims = aimFaults({ powerW, distortionRatio: statedDistortionRatio });
  const values = faultsOf([
    { path: ['plate'], value: pair.plateV, unit: 'V' },
    { path: ['supply'], value: pair.supplyV, unit: 'V' },
    { path: ['screen'], value: pair.screenV, unit: 'V' },
    { path: ['windingResistance'], value: pair.windingOhm, unit: 'Ω', range: [0, 10e3] },
    { path: ['load'], value: pair.loadOhm, unit: 'Ω' },
    { path: ['drive'], value: pair.driveV, unit: 'V', range: [1e-3, 20e3] },
    { path, value: grid, unit: 'V', range: [-20e3, 20e3] },
    { path, value: bias.kind === 'current' ? bias.plateA : null, unit: 'A' },
    { path, value: bias.kind === 'cathode-resistor' ? bias.ohm : null, unit: 'Ω' },
  ]);
  const matched = mismatchRatio >= 0 && mismatchRatio <= 1;
  return [...values, ...aims, ...(matched ? [] : [mismatchOutOfRange()])];
}
