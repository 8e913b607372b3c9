import type { Influence, PeriodStage } from '../output/complex-period.ts';
import { guessOf } from '../solving/half-period.ts';
import { type CurrentSlopes, slopesOf } from '../solving/slopes.ts';
import { cosineAt } from '../solving/spectrum.ts';
import type { Device, Electrodes } from '../types.ts';
import { PairSolver } from './pair-solver.ts';
import { pairLine } from './push-pull-cycle.ts';
import type { PairAtRest } from './push-pull-stage.ts';

/** Both sides of a pair at one instant on any load. */
export interface PairMoment {
  first: Electrodes;
  second: Electrodes;
  firstA: number;
  secondA: number;
  /** Of both sides. */
  screensA: number;
  /** Across half the primary. */
  halfV: number;
}

/**
 * A driven pair for harmonic balance. Its load is that across half the primary, a quarter of the load from plate to
 * plate, and the current through it what the first side carries more than the second. Its averages are the plate
 * currents of both sides and the current of all cathodes.
 */
export function pairPeriod(pair: PairAtRest, driveV: number): PeriodStage<PairMoment> {
  const { rest, cathodeOhm, alike } = pair;
  const restA = 2 * (rest.plateA + rest.screenA);
  return {
    restA: rest.plateA,
    averages: [rest.plateA, rest.plateA, restA],
    period({ ohm, averages: [first = 0, second = 0, cathodeA = 0], shiftV }, near) {
      const cathodeRiseV = cathodeOhm * (cathodeA - restA);
      const solver = new PairSolver(pair, pairLine(pair, ohm, { plateA: [first, second], cathodeRiseV }));
      const like = near?.map(({ halfV }) => halfV);
      const found: number[] = [];
      return Array.from(shiftV, (shift, k) => {
        solver.solve(driveV * cosineAt(k), guessOf(found, like, k), shift);
        found.push(solver.halfV);
        return momentOf(pair, solver);
      });
    },
    loadA: ({ firstA, secondA }) => firstA - secondA,
    flows: ({ firstA, secondA, screensA }) => [firstA, secondA, firstA + secondA + screensA],
    influences: (at, ohm) => influencesOf(pair, alike ? 0 : 1, at, ohm),
  };
}

function momentOf({ sides }: PairAtRest, solver: PairSolver): PairMoment {
  const { halfV, firstA, secondA } = solver;
  const [first, second] = [{ ...solver.first }, { ...solver.second }];
  const screensA = sides[0].screenCurrent(first) + sides[1].screenCurrent(second);
  return { first, second, firstA, secondA, screensA, halfV };
}

interface SideSlopes {
  plate: CurrentSlopes;
  screen: CurrentSlopes;
}

/** Changes of what an instant is computed from. */
interface Change {
  /** Of the mean voltage of each plate, its cathode apart. */
  plateV: readonly [number, number];
  riseV: number;
  unbalanceA: number;
  shiftV: number;
}

const unchanged: Change = { plateV: [0, 0], riseV: 0, unbalanceA: 0, shiftV: 0 };

/**
 * Derivatives of the load's current and of the three flows.
 * @source derivatives of the two sides' currents and of the ampere-turns
 */
function influencesOf(pair: PairAtRest, unbalanced: number, at: PairMoment, ohm: number): Influence[] {
  const { feedOhm, cathodeOhm, sides } = pair;
  const slopes = [slopesAt(sides[0], at.first), slopesAt(sides[1], at.second)] as const;
  const of = (change: Partial<Change>) => moved(slopes, ohm, { ...unchanged, ...change });
  const perVolt = of({ shiftV: 1 });
  const perAverage = [
    of({ plateV: [-feedOhm, 0], unbalanceA: unbalanced }),
    of({ plateV: [0, -feedOhm], unbalanceA: -unbalanced }),
    of({ riseV: cathodeOhm }),
  ];
  return perVolt.map((volt, current) => ({
    perVolt: volt,
    perAverage: perAverage.map((all) => all[current] ?? 0),
  }));
}

const slopesAt = (side: Device, at: Electrodes): SideSlopes => ({
  plate: slopesOf((where) => side.plateCurrent(where), at),
  screen: slopesOf((where) => side.screenCurrent(where), at),
});

/** What a change makes of the load's current and of the flows. */
function moved(
  [one, two]: readonly [SideSlopes, SideSlopes],
  ohm: number,
  { plateV, riseV, unbalanceA, shiftV }: Change,
): [number, number, number, number] {
  const straight = (slopes: CurrentSlopes, side: 0 | 1) =>
    slopes.perPlate * plateV[side] - slopes.perRise * riseV;
  const driven = straight(one.plate, 0) - straight(two.plate, 1) - unbalanceA;
  const both = one.plate.perPlate + two.plate.perPlate;
  const halfV = (ohm * driven - shiftV) / (1 + ohm * both);
  const first = straight(one.plate, 0) - one.plate.perPlate * halfV;
  const second = straight(two.plate, 1) + two.plate.perPlate * halfV;
  const screens =
    straight(one.screen, 0) + straight(two.screen, 1) + (two.screen.perPlate - one.screen.perPlate) * halfV;
  return [first - second, first, second, first + second + screens];
}
