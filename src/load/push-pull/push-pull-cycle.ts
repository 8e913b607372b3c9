import { isInside } from '../device/end-of-curves.ts';
import { guessOf, halfSteps, meanOfHalf, meanOfWave } from '../solving/half-period.ts';
import { type Evaluation, type Means, type Slopes, steadyCycle } from '../solving/steady-means.ts';
import type { Electrodes } from '../types.ts';
import { type PairLine, PairSolver } from './pair-solver.ts';
import type { PairAtRest } from './push-pull-stage.ts';

const steps = halfSteps;
const middle = steps / 2;
const cosines = Array.from({ length: steps + 1 }, (_, k) =>
  k === middle ? 0 : Math.cos((Math.PI * k) / steps),
);

/** A copy of it is cheaper than an array that grows. */
const blank: readonly number[] = cosines.map(() => Number.NaN);

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

/** What is solved of half a period of a cosine drive, from its crest to its trough. */
interface PairWaves {
  halfV: readonly number[];
  sideA: readonly [readonly number[], readonly number[]];
}

/** Peak drive at each grid as stated, or as much as takes a grid to the cathode's voltage. */
export type PairDrive = number | 'to zero grid';

/** A steady cycle of a pair. */
export class PairCycle {
  readonly loadOhm: number;
  /** Peak, at each grid. */
  readonly driveV: number;
  readonly cathodeRiseV: number;
  /** Mean plate currents of the two sides. */
  readonly plateA: readonly [number, number];
  readonly line: PairLine;
  readonly waves: PairWaves;
  readonly #pair: PairAtRest;
  #half: PairInstant[] | null = null;
  /** How its averages influence each other, where they do. */
  slopes: Slopes | null = null;

  constructor(
    pair: PairAtRest,
    of: { loadOhm: number; driveV: number; cathodeRiseV: number; line: PairLine; waves: PairWaves },
  ) {
    this.#pair = pair;
    this.loadOhm = of.loadOhm;
    this.driveV = of.driveV;
    this.cathodeRiseV = of.cathodeRiseV;
    this.line = of.line;
    this.waves = of.waves;
    this.plateA = [meanOfWave(of.waves.sideA[0]), meanOfWave(of.waves.sideA[1])];
  }

  /** Instants of half a period, from the crest of the drive to its trough. */
  get half(): PairInstant[] {
    this.#half ??= cosines.map((cosine, k) => this.#instant(this.driveV * cosine, k));
    return this.#half;
  }

  /** False where a side leaves what is known of it. */
  get isKnown(): boolean {
    return this.unknownSwings().length === 0;
  }

  /** Swings of the grids at which a side is outside of what is known of it. */
  unknownSwings(): number[] {
    const { sides } = this.#pair;
    if (!sides[0].margin) return [];
    return this.half.flatMap((instant, k) =>
      instant.sides.every((at, index) => isInside(sides[index === 0 ? 0 : 1], at))
        ? []
        : [this.driveV * Math.abs(cosines[k] ?? 0)],
    );
  }

  /** Mean of all cathodes together. */
  get cathodeA(): number {
    const screensA = meanOfHalf(this.half, ({ sides: [a, b] }) => a.screenA + b.screenA);
    return this.plateA[0] + this.plateA[1] + screensA;
  }

  #instant(inputV: number, k: number): PairInstant {
    const { plateV, screenV, gridV } = this.line;
    const halfV = this.waves.halfV[k] ?? 0;
    const side = (index: 0 | 1, sign: 1 | -1): SideInstant => {
      const at = { plateV: plateV[index] - sign * halfV, screenV, gridV: gridV + sign * inputV };
      const plateA = this.waves.sideA[index][k] ?? 0;
      return { ...at, plateA, screenA: this.#pair.sides[index].screenCurrent(at) };
    };
    return { sides: [side(0, 1), side(1, -1)], halfV };
  }
}

/**
 * A pair on an ideal centre-tapped transformer driven by a sine, with all averages settled: the bias that a
 * common bypassed cathode resistor makes of the current with signal, the mean drop in each half of the winding,
 * and the unbalance, which passes through the load no more than any direct current. A cycle that is `near` saves
 * work. Null where nothing settles.
 */
export function pairCycle(
  pair: PairAtRest,
  loadOhm: number,
  drive: PairDrive,
  near: PairCycle | null = null,
): PairCycle | null {
  const { rest, alike, feedOhm, cathodeOhm } = pair;
  const plateA = near?.plateA ?? [rest.plateA, rest.plateA];
  const restA = 2 * (rest.plateA + rest.screenA);
  const cathodeA = near === null || cathodeOhm === 0 ? restA : restA + near.cathodeRiseV / cathodeOhm;
  let like = near?.waves ?? null;
  const ofBoth = (means: Means): Evaluation<PairCycle> => {
    const cycle = cycleWith(pair, loadOhm, drive, { means: meansFrom(means), near: like });
    like = cycle.waves;
    return { cycle, means: [...cycle.plateA, cathodeOhm > 0 ? cycle.cathodeA : 0] };
  };
  const ofOne = (means: Means) => {
    const { cycle, means: found } = ofBoth(twoSides(means));
    return { cycle, means: oneSide(found) };
  };
  const start = [...plateA, cathodeA];
  const known = { scale: rest.plateA, slopes: near?.slopes };
  const steady = alike
    ? steadyCycle(ofOne, oneSide(start), { ...known, coupled: [feedOhm > 0, cathodeOhm > 0] })
    : steadyCycle(ofBoth, start, { ...known, coupled: [true, true, cathodeOhm > 0] });
  if (steady) steady.cycle.slopes = steady.slopes;
  return steady?.cycle ?? null;
}

/** With sides that are alike, their means are one number. */
const oneSide = ([first = 0, , cathodeA = 0]: Means): Means => [first, cathodeA];
const twoSides = ([plateA = 0, cathodeA = 0]: Means): Means => [plateA, plateA, cathodeA];
const meansFrom = ([first = 0, second = 0, cathodeA = 0]: Means): PairMeans => ({
  plateA: [first, second],
  cathodeA,
});

function cycleWith(
  pair: PairAtRest,
  loadOhm: number,
  drive: PairDrive,
  { means, near }: { means: PairMeans; near: PairWaves | null },
): PairCycle {
  const { rest, cathodeOhm } = pair;
  const cathodeRiseV = cathodeOhm * (means.cathodeA - 2 * (rest.plateA + rest.screenA));
  const driveV = drive === 'to zero grid' ? Math.max(0, cathodeRiseV - rest.gridV) : drive;
  const line = pairLine(pair, loadOhm / 4, { plateA: means.plateA, cathodeRiseV });
  const waves = halfPeriod(pair, line, driveV, near);
  return new PairCycle(pair, { loadOhm, driveV, cathodeRiseV, line, waves });
}

/** From crest to trough; of sides that are alike the second quarter is the first with the sides exchanged. */
function halfPeriod(pair: PairAtRest, line: PairLine, driveV: number, near: PairWaves | null): PairWaves {
  const solver = new PairSolver(pair, line);
  const halfV = blank.slice();
  const firstA = blank.slice();
  const secondA = blank.slice();
  const last = pair.alike ? middle : steps;
  for (let k = 0; k <= last; k++) {
    const mirrored = pair.alike && k === middle;
    solver.solve(driveV * (cosines[k] ?? 0), mirrored ? 0 : guessOf(halfV, near?.halfV, k));
    halfV[k] = solver.halfV;
    firstA[k] = solver.firstA;
    secondA[k] = solver.secondA;
  }
  for (let k = last + 1; k <= steps; k++) {
    halfV[k] = -(halfV[steps - k] ?? 0);
    firstA[k] = secondA[steps - k] ?? 0;
    secondA[k] = firstA[steps - k] ?? 0;
  }
  return { halfV, sideA: [firstA, secondA] };
}

/** The line of a pair whose sides carry these means; `halfOhm` is the load across half the primary. */
export function pairLine(
  { rest, feedOhm, alike }: PairAtRest,
  halfOhm: number,
  { plateA: [first, second], cathodeRiseV }: { plateA: readonly [number, number]; cathodeRiseV: number },
): PairLine {
  const plateV = (plateA: number) => rest.plateV - cathodeRiseV - feedOhm * (plateA - rest.plateA);
  return {
    halfOhm,
    plateV: [plateV(first), plateV(second)],
    screenV: rest.screenV - cathodeRiseV,
    gridV: rest.gridV - cathodeRiseV,
    unbalanceA: alike ? 0 : first - second,
  };
}
