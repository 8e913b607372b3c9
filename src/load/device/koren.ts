import type { Device, Electrodes, KorenParameters } from '../types.ts';

/** ln(1 + exp(x)) without overflow: above 40 the one is below the last digit of a double. */
const softPlus = (x: number) => (x > 40 ? x : Math.log1p(Math.exp(x)));

/**
 * Plate current of a triode, in amperes. With E = (Vp/kP)·ln(1 + exp(kP·(1/mu + Vg/√(kVB + Vp²)))) the
 * current is E^ex/kG1·(1 + sgn E): twice E^ex/kG1 for every positive E. Nothing flows at or below 0 V.
 * @source Koren, Glass Audio 8(5), 1996, p. 18, triode equations
 */
function triodeCurrent({ mu, ex, kG1, kP, kVB }: KorenParameters, plateV: number, gridV: number): number {
  if (plateV <= 0) return 0;
  const drive = 1 / mu + gridV / Math.sqrt(kVB + plateV * plateV);
  return (2 / kG1) * ((plateV / kP) * softPlus(kP * drive)) ** ex;
}

/**
 * Plate current of a pentode, in amperes: the triode's form with the screen in the plate's place, times
 * the arc tangent of Vp/kVB.
 * @source Koren, Glass Audio 8(5), 1996, p. 18, pentode equations
 */
function pentodeCurrent({ mu, ex, kG1, kP, kVB }: KorenParameters, at: Electrodes): number {
  if (at.plateV <= 0 || at.screenV <= 0) return 0;
  const drive = 1 / mu + at.gridV / at.screenV;
  return (2 / kG1) * ((at.screenV / kP) * softPlus(kP * drive)) ** ex * Math.atan(at.plateV / kVB);
}

/**
 * Screen current, in amperes: (Vg + Vs/mu)^1.5/kG2, whatever the plate voltage. It is the weakest of the
 * equations: near the knee a real screen takes far more.
 * @source Koren, Glass Audio 8(5), 1996, p. 18, equation 3 as corrected by its errata
 */
function pentodeScreenCurrent({ mu, kG2 }: KorenParameters, at: Electrodes): number {
  const drive = at.gridV + at.screenV / mu;
  return kG2 === undefined || drive <= 0 || at.screenV <= 0 ? 0 : drive ** 1.5 / kG2;
}

/** A triode by Koren's equations. */
export function korenTriode(model: KorenParameters): Device {
  return {
    plateCurrent: (at) => triodeCurrent(model, at.plateV, at.gridV),
    screenCurrent: () => 0,
  };
}

/** A pentode or beam tetrode with its screen fed on its own, by Koren's equations. */
export function korenPentode(model: KorenParameters): Device {
  return {
    plateCurrent: (at) => pentodeCurrent(model, at),
    screenCurrent: (at) => pentodeScreenCurrent(model, at),
  };
}
