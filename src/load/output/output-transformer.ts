import type { CoreSheet, Corner, OutputDescription, OutputTransformer } from '../types.ts';
import { reflectedImpedance } from './transformer.ts';

/** Losses at which the ends of the band are stated. */
const lossesDb: readonly number[] = [0.5, 1, 2, 10 * Math.log10(2)];

/** A transformer with the turns of the primary that are in use. */
export interface TurnsInUse {
  turnsRatio: number;
  primaryOhm: number | null;
  primaryH: number | null;
  leakageH: number | null;
}

/**
 * The values of a part of the primary: turns ratio and resistance go with the turns, inductance and leakage with
 * their square.
 * @source inductance of a winding goes with the square of its turns; wire of one gauge throughout
 */
export function turnsInUse(
  { turnsRatio, primaryOhm, primaryH, leakageH }: OutputTransformer,
  share: number,
): TurnsInUse {
  const scaled = (value: number | null, by: number) => (value === null ? null : value * by);
  return {
    turnsRatio: turnsRatio * share,
    primaryOhm: scaled(primaryOhm, share),
    primaryH: scaled(primaryH, share ** 2),
    leakageH: scaled(leakageH, share ** 2),
  };
}

/** The load at the plate in the middle of the band: loudspeaker and secondary reflected, and the primary's resistance. */
export function loadThroughTransformer({ transformer, primaryShare, speakerOhm }: OutputDescription): number {
  const { turnsRatio, primaryOhm } = turnsInUse(transformer, primaryShare);
  return (primaryOhm ?? 0) + reflectedImpedance(turnsRatio, speakerOhm + (transformer.secondaryOhm ?? 0));
}

/**
 * Share of the power into the transformer that reaches the loudspeaker in the middle of the band:
 * n²·R/(n²·R + Rp + n²·Rs). The iron's own loss is not in it.
 * @source ideal transformer with the resistances of its windings; worked numbers in shared/checks/load.json
 */
export function windingEfficiency(of: {
  turnsRatio: number;
  speakerOhm: number;
  primaryOhm: number;
  secondaryOhm: number;
}): number {
  const useful = reflectedImpedance(of.turnsRatio, of.speakerOhm);
  return useful / (useful + of.primaryOhm + reflectedImpedance(of.turnsRatio, of.secondaryOhm));
}

/**
 * Frequencies at which an inductance across source and load in parallel has taken 0.5, 1, 2 and 3.01 dB from the low
 * end: R/(2πL) over √(10^(dB/10) − 1).
 * @source first-order high-pass of source ‖ load and primary inductance; Radio Designer's Handbook, ch. 5, tabulates
 * the factors (from memory)
 */
export function lowCorners(parallelOhm: number, primaryH: number): Corner[] {
  return lossesDb.map((lossDb) => ({
    lossDb,
    frequencyHz: parallelOhm / (2 * Math.PI * primaryH * Math.sqrt(10 ** (lossDb / 10) - 1)),
  }));
}

/**
 * Frequencies at which the leakage in series with source and load has taken as much from the high end:
 * R/(2πL) times √(10^(dB/10) − 1). Winding capacitances are not in it.
 * @source first-order low-pass of leakage and source + load
 */
export function highCorners(seriesOhm: number, leakageH: number): Corner[] {
  return lossesDb.map((lossDb) => ({
    lossDb,
    frequencyHz: (seriesOhm * Math.sqrt(10 ** (lossDb / 10) - 1)) / (2 * Math.PI * leakageH),
  }));
}

/** What the flux of a core is reckoned from: turns ratio and inductance of the whole primary. */
interface CoreRating {
  turnsRatio: number;
  nominalOhm: number;
  primaryH: number;
  ratedPower: { watt: number; frequencyHz: number };
  ratedDirectA: number;
}

interface CoreUse {
  primaryShare: number;
  directA: number;
  /** Voltage at the primary over voltage at the reflected loudspeaker: the secondary's resistance. */
  overReflected: number;
  speakerOhm: number;
  /** Full power in the loudspeaker. */
  speakerW: number;
}

/**
 * What the iron leaves for a sine beside the direct current. The largest flux linkage is that of the rated power at
 * its frequency together with the rated direct current; the direct current at hand comes off first, and the sine's
 * peak linkage √2·E/(2πf) has the rest. Null where the direct current alone takes it all.
 * @source Faraday's law; flux linkage L·I of a gapped core, iron neglected
 */
export function coreSheet(rating: CoreRating, use: CoreUse): CoreSheet | null {
  const { watt, frequencyHz: ratedHz } = rating.ratedPower;
  const ratedV = Math.sqrt(watt * reflectedImpedance(rating.turnsRatio, rating.nominalOhm));
  const linkageOf = (volts: number, hz: number) => (Math.SQRT2 * volts) / (2 * Math.PI * hz);
  const whole = linkageOf(ratedV, ratedHz) + rating.primaryH * rating.ratedDirectA;
  const largest = use.primaryShare * whole;
  const direct = use.primaryShare ** 2 * rating.primaryH * use.directA;
  const left = largest - direct;
  if (!(left > 0)) return null;
  const reflected = reflectedImpedance(rating.turnsRatio * use.primaryShare, use.speakerOhm);
  const voltageAt = (speakerW: number) => use.overReflected * Math.sqrt(speakerW * reflected);
  const mostV = (left * 2 * Math.PI * ratedHz) / Math.SQRT2;
  return {
    directShare: direct / largest,
    ratedHz,
    powerAtRatedHzW: (mostV / use.overReflected) ** 2 / reflected,
    fullPowerHz: (ratedHz * voltageAt(use.speakerW)) / mostV,
  };
}

/**
 * Flux density of a direct current in a gapped core, teslas, and the inductance of its winding, henries; the iron's
 * own reluctance is left out.
 * @source µ0·N·I/g and µ0·N²·A/g
 */
export function gappedCore(of: { turns: number; directA: number; gapM: number; areaM2: number }) {
  const perTurn = (4e-7 * Math.PI * of.turns) / of.gapM;
  return { directTesla: perTurn * of.directA, inductanceH: perTurn * of.turns * of.areaM2 };
}
