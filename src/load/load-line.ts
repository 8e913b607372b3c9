import { findRoot } from './solve.ts';
import type { Instant, RestingStage } from './types.ts';

/**
 * The load line in force: the load, and what rectification has made of the averages. Without signal the
 * average plate current is that at rest and the cathode has not risen.
 */
export interface LoadLine {
  loadOhm: number;
  averagePlateA: number;
  cathodeRiseV: number;
  /** Voltage added at the plate, by a load that is no resistance. */
  plateShiftV?: number;
}

/** The load line through the point of rest. */
export function lineAtRest(stage: RestingStage, loadOhm: number): LoadLine {
  return { loadOhm, averagePlateA: stage.rest.plateA, cathodeRiseV: 0 };
}

/**
 * Currents and voltages when the signal in the grid circuit is `inputV`: the device's characteristic meets
 * the load line. With an unbypassed cathode resistor the cathode's rise is solved as well.
 * @source graphical construction of the load line, done numerically
 */
export function instantAt(stage: RestingStage, line: LoadLine, inputV: number): Instant {
  return balanced(stage, line, (riseV) => stage.rest.gridV + inputV - riseV);
}

/** The instant at which the grid reaches the cathode's voltage. */
export function instantAtZeroGrid(stage: RestingStage, line: LoadLine): Instant {
  return balanced(stage, line, () => 0);
}

/** Grid voltage to the cathode once the cathode has risen. */
type GridAt = (riseV: number) => number;

function balanced(stage: RestingStage, line: LoadLine, gridAt: GridAt): Instant {
  const at = (screenA: number) => withScreenCurrent(stage, line, gridAt, screenA);
  const first = at(0);
  if (followingOhm(stage) === 0 || first.screenA === 0) return first;
  const screenA = findRoot((trial) => at(trial).screenA - trial, { low: 0, high: first.screenA });
  return screenA === null ? first : at(screenA);
}

/** Resistance by which the cathode follows the signal. */
const followingOhm = ({ cathode }: RestingStage) => (cathode && !cathode.bypassed ? cathode.ohm : 0);

/** The instant if the cathode resistor carried `screenA` besides the plate current. */
function withScreenCurrent(stage: RestingStage, line: LoadLine, gridAt: GridAt, screenA: number): Instant {
  const { device, rest, feedOhm } = stage;
  const ohm = followingOhm(stage);
  const fromFeed = rest.plateV - feedOhm * (line.averagePlateA - rest.plateA) + (line.plateShiftV ?? 0);
  const electrodes = (plateA: number) => {
    const riseV = line.cathodeRiseV + ohm * (plateA - rest.plateA + screenA - rest.screenA);
    const plateV = fromFeed + line.loadOhm * (line.averagePlateA - plateA) - riseV;
    return { plateV, screenV: rest.screenV - riseV, gridV: gridAt(riseV), cathodeRiseV: riseV };
  };
  const excess = (plateA: number) => device.plateCurrent(electrodes(plateA)) - plateA;
  const high = Math.max(0, electrodes(0).plateV / (line.loadOhm + ohm));
  // A device that still draws more at 0 V is held there.
  const plateA = findRoot(excess, { low: 0, high }) ?? high;
  const at = electrodes(plateA);
  return { ...at, plateA, screenA: device.screenCurrent(at) };
}

/** The two ends of the load line through the point of rest: no current, and no plate voltage. */
export function lineEnds(stage: RestingStage, loadOhm: number): { plateV: number; plateA: number }[] {
  const { plateV, plateA } = stage.rest;
  return [
    { plateV: plateV + loadOhm * plateA, plateA: 0 },
    { plateV: 0, plateA: plateA + plateV / loadOhm },
  ];
}
