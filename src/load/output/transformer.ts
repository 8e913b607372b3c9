/**
 * Impedance at the primary: the load times the square of the turns ratio (primary over secondary), in ohms.
 * @source ideal transformer; worked numbers in shared/checks/load.json
 */
export function reflectedImpedance(turnsRatio: number, loadOhm: number): number {
  return turnsRatio * turnsRatio * loadOhm;
}

/**
 * Turns ratio (primary over secondary) that makes a load look like `primaryOhm`.
 * @source ideal transformer; worked numbers in shared/checks/load.json
 */
export function turnsRatio(primaryOhm: number, loadOhm: number): number {
  return Math.sqrt(primaryOhm / loadOhm);
}

/**
 * Voltage induced in a winding, V rms: (2π/√2)·f·N·B·A with the peak flux density in teslas and the core's
 * area in square metres. The handbooks' 4.44 is the factor rounded.
 * @source Faraday's law for a sine
 */
export function windingVoltageRms(of: {
  frequencyHz: number;
  turns: number;
  peakTesla: number;
  areaM2: number;
}): number {
  return Math.PI * Math.SQRT2 * of.frequencyHz * of.turns * of.peakTesla * of.areaM2;
}
