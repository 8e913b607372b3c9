import type { PairAtRest } from './push-pull-stage.ts';
import { rootNear } from './root-near.ts';
import { type Evaluation, type Means, steadyCycle } from './steady-means.ts';
import type { Electrodes } from './types.ts';

/** Steps of half a period; see tests for what they leave of error. */
const steps = 64;

/** The averages in force: each side's plate current, and the current of all cathodes. */
interface PairMeans {
  plateA: readonly [number, number];
  cathodeA: number;
}

/** One side at one instant. */
export interface SideInstant extends Electrodes {
  plateA: number;
  screenA: number;
}

/** Both sides at one instant, and the voltage across each half of the primary. */
export interface PairInstant {
  sides: readonly [SideInstant, SideInstant];
  halfV: number;
}

/** A steady cycle: instants of half a period of a cosine drive, from its crest to its trough. */
export interface PairCycle {
  loadOhm: number;
  /** Peak, at each grid. */
  driveV: number;
  cathodeRiseV: number;
  /** Mean plate currents of the two sides. */
  plateA: readonly [number, number];
  /** Mean of all cathodes together. */
  cathodeA: number;
  half: PairInstant[];
}

/** Peak drive at each grid as stated, or as much as takes a grid to the cathode's voltage. */
export type PairDrive = number | 'to zero grid';

/**
 * A pair on an ideal centre-tapped transformer driven by a sine, with all averages settled: the bias that a
 * common bypassed cathode resistor makes of the current with signal, the mean drop in each half of the winding,
 * and the unbalance, which passes through the load no more than any direct current. A cycle that is `near` saves
 * work. Null where nothing settles.
 * @source ampere-turns of an ideal transformer: the combined current of the two sides meets a quarter of the
 * load from plate to plate across half the primary (B. J. Thompson's composite characteristic, Proc. IRE 21
 * (1933), from memory), solved at each phase
 */
export function pairCycle(
  pair: PairAtRest,
  loadOhm: number,
  drive: PairDrive,
  near: PairCycle | null = null,
): PairCycle | null {
  const { rest, alike, feedOhm, cathodeOhm } = pair;
  const plateA = near?.plateA ?? [rest.plateA, rest.plateA];
  const start = [...plateA, near?.cathodeA ?? 2 * (rest.plateA + rest.screenA)];
  const ofBoth = (means: Means) => evaluated(cycleWith(pair, loadOhm, drive, meansFrom(means)));
  if (!alike) {
    const coupled = [true, true, cathodeOhm > 0];
    return steadyCycle(ofBoth, start, { coupled, scale: rest.plateA });
  }
  const ofOne = (means: Means) => {
    const { cycle, means: found } = ofBoth(twoSides(means));
    return { cycle, means: oneSide(found) };
  };
  const coupled = [feedOhm > 0, cathodeOhm > 0];
  return steadyCycle(ofOne, oneSide(start), { coupled, scale: rest.plateA });
}

/** With sides that are alike, their means are one number. */
const oneSide = ([first = 0, , cathodeA = 0]: Means): Means => [first, cathodeA];
const twoSides = ([plateA = 0, cathodeA = 0]: Means): Means => [plateA, plateA, cathodeA];
const meansFrom = ([first = 0, second = 0, cathodeA = 0]: Means): PairMeans => ({
  plateA: [first, second],
  cathodeA,
});

function evaluated(cycle: PairCycle): Evaluation<PairCycle> {
  return { cycle, means: [...cycle.plateA, cycle.cathodeA] };
}

function cycleWith(pair: PairAtRest, loadOhm: number, drive: PairDrive, means: PairMeans): PairCycle {
  const { rest, cathodeOhm } = pair;
  const cathodeRiseV = cathodeOhm * (means.cathodeA - 2 * (rest.plateA + rest.screenA));
  const driveV = drive === 'to zero grid' ? Math.max(0, cathodeRiseV - rest.gridV) : drive;
  const line = lineOf(pair, loadOhm, { plateA: means.plateA, cathodeRiseV });
  const half = halfPeriod(pair, line, driveV);
  const mean = (side: 0 | 1) => meanOfHalf(half, ({ sides }) => sides[side].plateA);
  const screensA = meanOfHalf(half, ({ sides: [a, b] }) => a.screenA + b.screenA);
  const plateA = [mean(0), mean(1)] as const;
  return { loadOhm, driveV, cathodeRiseV, plateA, cathodeA: plateA[0] + plateA[1] + screensA, half };
}

/** From crest to trough; of sides that are alike the second quarter is the first with the sides exchanged. */
function halfPeriod(pair: PairAtRest, line: PairLine, driveV: number): PairInstant[] {
  const solved: PairInstant[] = [];
  for (let k = 0; k <= (pair.alike ? steps / 2 : steps); k++) {
    const inputV = k === steps / 2 ? 0 : driveV * Math.cos((Math.PI * k) / steps);
    solved.push(pairInstant(pair, line, inputV, solved.at(-1)?.halfV));
  }
  return pair.alike ? [...solved, ...solved.slice(0, -1).reverse().map(exchanged)] : solved;
}

const exchanged = ({ sides: [first, second], halfV }: PairInstant): PairInstant => ({
  sides: [second, first],
  halfV: -halfV,
});

/** Mean over the period of a value of its instants (trapezoid rule, the drive being symmetric). */
export function meanOfHalf<Instant>(half: readonly Instant[], value: (instant: Instant) => number): number {
  const last = half.length - 1;
  return half.reduce((sum, instant, k) => sum + value(instant) * (k === 0 || k === last ? 0.5 : 1), 0) / last;
}

/** What the load line of a pair starts from: mean voltages to the cathode, and the unbalance. */
interface PairLine {
  /** Load of the combined current: a quarter of that from plate to plate. */
  halfOhm: number;
  plateV: readonly [number, number];
  screenV: number;
  gridV: number;
  unbalanceA: number;
}

function lineOf(
  { rest, feedOhm, alike }: PairAtRest,
  loadOhm: number,
  { plateA: [first, second], cathodeRiseV }: { plateA: readonly [number, number]; cathodeRiseV: number },
): PairLine {
  const plateV = (plateA: number) => rest.plateV - cathodeRiseV - feedOhm * (plateA - rest.plateA);
  return {
    halfOhm: loadOhm / 4,
    plateV: [plateV(first), plateV(second)],
    screenV: rest.screenV - cathodeRiseV,
    gridV: rest.gridV - cathodeRiseV,
    unbalanceA: alike ? 0 : first - second,
  };
}

/** The line of a cycle that has settled. */
export const settledPairLine = (pair: PairAtRest, { loadOhm, plateA, cathodeRiseV }: PairCycle): PairLine =>
  lineOf(pair, loadOhm, { plateA, cathodeRiseV });

/**
 * Both sides when the first grid stands `inputV` above its mean and the second as far below. `nearV` is where
 * the voltage across half the primary is looked for first.
 */
export function pairInstant({ sides }: PairAtRest, line: PairLine, inputV: number, nearV = 0): PairInstant {
  const { halfOhm, plateV, screenV, gridV, unbalanceA } = line;
  const first = (halfV: number) => ({ plateV: plateV[0] - halfV, screenV, gridV: gridV + inputV });
  const second = (halfV: number) => ({ plateV: plateV[1] + halfV, screenV, gridV: gridV - inputV });
  const combined = (halfV: number) =>
    sides[0].plateCurrent(first(halfV)) - sides[1].plateCurrent(second(halfV)) - unbalanceA;
  const most = Math.max(...plateV);
  // A side that still draws more at 0 V is held there.
  const held = inputV > 0 ? most : -most;
  const excess = (trial: number) => halfOhm * combined(trial) - trial;
  const halfV = rootNear(excess, nearV, { low: -most, high: most }) ?? held;
  const side = (index: 0 | 1, at: Electrodes): SideInstant => ({
    ...at,
    plateA: sides[index].plateCurrent(at),
    screenA: sides[index].screenCurrent(at),
  });
  return { sides: [side(0, first(halfV)), side(1, second(halfV))], halfV };
}
