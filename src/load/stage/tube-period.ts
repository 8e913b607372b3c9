import type { Influence, PeriodStage } from '../output/complex-period.ts';
import { guessFrom, InstantSolver } from '../solving/instant-solver.ts';
import { type CurrentSlopes, slopesOf } from '../solving/slopes.ts';
import { cosineAt } from '../solving/spectrum.ts';
import type { Instant, RestingStage } from '../types.ts';

/** A driven tube with a load at its plate, for harmonic balance; its averages are those of plate and screen current. */
export function tubePeriod(stage: RestingStage, driveV: number): PeriodStage<Instant> {
  const { rest, cathode } = stage;
  const steadyOhm = cathode?.bypassed ? cathode.ohm : 0;
  return {
    restA: rest.plateA,
    averages: [rest.plateA, rest.screenA],
    period({ ohm, averages: [averagePlateA = 0, screenA = 0], shiftV }, near) {
      const cathodeRiseV = steadyOhm * (averagePlateA - rest.plateA + screenA - rest.screenA);
      const solver = new InstantSolver(stage, { loadOhm: ohm, averagePlateA, cathodeRiseV });
      const found: Instant[] = [];
      for (const [k, shift] of shiftV.entries()) {
        found.push(solver.at(driveV * cosineAt(k), guessFrom(found, near, k), shift));
      }
      return found;
    },
    loadA: ({ plateA }) => plateA,
    flows: ({ plateA, screenA }) => [plateA, screenA],
    influences: (instant, ohm) => influencesOf(stage, ohm, instant),
  };
}

/**
 * Derivatives along the load line. A separate screen's current in an unbypassed cathode resistor is left out: they
 * are the slopes of a search, not figures.
 */
function influencesOf({ device, feedOhm, cathode }: RestingStage, ohm: number, at: Instant): Influence[] {
  const steadyOhm = cathode?.bypassed ? cathode.ohm : 0;
  const followingOhm = cathode && !cathode.bypassed ? cathode.ohm : 0;
  const plate = slopesOf((moved) => device.plateCurrent(moved), at);
  const screen = steadyOhm === 0 ? flat : slopesOf((moved) => device.screenCurrent(moved), at);
  const held = 1 + plate.perPlate * ohm + plate.perRise * followingOhm;
  const perVolt = plate.perPlate / held;
  const perRise = -plate.perRise / held;
  const back = screen.perPlate * ohm + screen.perRise * followingOhm;
  const screenPerVolt = screen.perPlate - back * perVolt;
  const screenPerRise = -screen.perRise - back * perRise;
  const of = (volt: number, rise: number): Influence => ({
    perVolt: volt,
    perAverage: [volt * (ohm - feedOhm) + rise * steadyOhm, rise * steadyOhm],
  });
  return [of(perVolt, perRise), of(perVolt, perRise), of(screenPerVolt, screenPerRise)];
}

const flat: CurrentSlopes = { perPlate: 0, perRise: 0 };
