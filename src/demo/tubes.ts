import { zeroOfFalling } from './solve.ts';

/**
 * One invented tube. Its current is a power of one effective voltage, grid volts plus plate (or screen) volts
 * over µ, and cut-off is rounded over `softV`. Load sheets use another law, so that the comparison of a sheet
 * with these captures means something.
 * @source Langmuir, Physical Review 2(6) (1913), p. 450: space-charge current as the 3/2 power of the voltage.
 */
export interface TubeLaw {
  mu: number;
  exponent: number;
  /** Amperes at an effective voltage of one volt. */
  perveance: number;
  softV: number;
}

/** Where a tube rests. */
export interface RestingPoint {
  gridV: number;
  plateV: number;
  plateA: number;
}

/** Current of a triode, or of a pentode where the screen's volts take the plate's place. */
export function spaceCurrent(tube: TubeLaw, gridV: number, pullV: number): number {
  const effectiveV = tube.softV * softPlus((gridV + pullV / tube.mu) / tube.softV);
  return tube.perveance * effectiveV ** tube.exponent;
}

const softPlus = (x: number) => Math.max(x, 0) + Math.log1p(Math.exp(-Math.abs(x)));

/** Rounded limit from above: values well below 0 pass, values above it are held near 0. */
export const heldBelowZero = (value: number, softV: number) => -softV * softPlus(-value / softV);

/** Rest of a cathode-biased triode with a plate resistor (or a winding of 0 Ω) from `supplyV`. */
export function triodeAtRest(
  tube: TubeLaw,
  supplyV: number,
  plateOhm: number,
  cathodeOhm: number,
): RestingPoint {
  const plateVAt = (plateA: number) => supplyV - plateA * (plateOhm + cathodeOhm);
  const plateA = zeroOfFalling((i) => spaceCurrent(tube, -i * cathodeOhm, plateVAt(i)) - i, 0, 1);
  return { gridV: -plateA * cathodeOhm, plateV: plateVAt(plateA), plateA };
}

/** Slope of the plate current with the plate voltage at rest, in siemens. */
export function plateConductance(tube: TubeLaw, rest: RestingPoint): number {
  const step = 0.01;
  const at = (plateV: number) => spaceCurrent(tube, rest.gridV, plateV);
  return (at(rest.plateV + step) - at(rest.plateV - step)) / (2 * step);
}
