import { zeroOfFalling } from './solve.ts';
import { heldBelowZero, spaceCurrent, type TubeLaw } from './tubes.ts';

/**
 * An invented power pentode: knee of its plate curves, and the voltage at which their slopes meet. The knee is
 * an exponential because that is the plainest curve with the right shape; no particular tube is meant.
 */
interface Pentode {
  space: TubeLaw;
  screenV: number;
  kneeV: number;
  meetingV: number;
  /** Screen current as a share of the space current well above the knee. */
  screenShare: number;
}

/** A pentode with its load line; the signal part of the cathode resistor is 0 where it is bypassed. */
export interface PentodeStage {
  pentode: Pentode;
  plateV: number;
  loadOhm: number;
  biasOhm: number;
}

interface Currents {
  plateA: number;
  cathodeA: number;
}

/** Currents at a plate-to-cathode voltage; below the knee the screen takes more. */
export function currents(
  { pentode, plateV }: PentodeStage,
  gridV: number,
  plateToCathodeV: number,
): Currents {
  const space = spaceCurrent(pentode.space, gridV, pentode.screenV);
  const reach = 1 - Math.exp(-Math.max(plateToCathodeV, 0) / pentode.kneeV);
  const slope = (pentode.meetingV + plateToCathodeV) / (pentode.meetingV + plateV);
  const plateA = space * reach * slope;
  return { plateA, cathodeA: plateA + space * pentode.screenShare * (3 - 2 * reach) };
}

/** Cathode-biased rest at the stage's plate voltage. */
export function pentodeAtRest(stage: PentodeStage): Currents & { gridV: number } {
  const spare = (cathodeA: number) =>
    currents(stage, -cathodeA * stage.biasOhm, stage.plateV).cathodeA - cathodeA;
  const gridV = -stage.biasOhm * zeroOfFalling(spare, 0, 1);
  return { gridV, ...currents(stage, gridV, stage.plateV) };
}

/**
 * Change of the plate current for a change of the grid voltage. `cathodeOhm` is what the signal meets at the
 * cathode; the grid is held near the cathode's voltage where it would go above it.
 */
export function plateCurrentFor(
  stage: PentodeStage,
  rest: Currents & { gridV: number },
  cathodeOhm: number,
): (gridV: number) => number {
  const at = (gridV: number, cathodeV: number): Currents => {
    const held = heldBelowZero(rest.gridV + gridV - cathodeV, 0.5);
    const plateAt = (plateA: number) => stage.plateV - stage.loadOhm * (plateA - rest.plateA) - cathodeV;
    const spare = (plateA: number) => currents(stage, held, plateAt(plateA)).plateA - plateA;
    return currents(stage, held, plateAt(zeroOfFalling(spare, 0, 0.3)));
  };
  const cathodeVFor = (gridV: number) =>
    zeroOfFalling((v) => cathodeOhm * (at(gridV, v).cathodeA - rest.cathodeA) - v, -30, 30);
  return (gridV) => at(gridV, cathodeOhm === 0 ? 0 : cathodeVFor(gridV)).plateA - rest.plateA;
}

/** Resistance looking into the plate, raised by what the signal meets at the cathode. */
export function plateResistance(
  stage: PentodeStage,
  rest: Currents & { gridV: number },
  cathodeOhm: number,
): number {
  const step = 0.01;
  const slopeOhm = (stage.pentode.meetingV + stage.plateV) / rest.plateA;
  const at = (gridV: number) => currents(stage, gridV, stage.plateV).plateA;
  const transconductance = (at(rest.gridV + step) - at(rest.gridV - step)) / (2 * step);
  return slopeOhm + cathodeOhm * (1 + transconductance * slopeOhm);
}
