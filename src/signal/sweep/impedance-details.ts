import type { ImpedanceSweep } from './impedance-sweep.ts';
import { type ApparentInductance, apparentInductance } from './inductance.ts';
import { type ImpedancePoint, type Resonance, resonanceOf } from './resonance.ts';
import { isPositive, isReading } from './sweep-columns.ts';

/** What an impedance sweep was measured on; it decides which figures mean anything. */
export type ImpedanceObject = 'loudspeaker' | 'amplifier' | 'transformer';

export interface ImpedanceDetails {
  /** Largest of 4, 6, 8 and 16 Ω that the smallest modulus supports; null where it supports none. */
  ratedOhm: number | null;
  resonance: Resonance | null;
  inductance: ApparentInductance | null;
  /** True where the sweep has phase. */
  withPhase: boolean;
}

/** Rated impedances in use, and the share of them that the modulus may not fall below. */
const ratedValuesOhm: readonly number[] = [4, 6, 8, 16];
const ratedShare = 0.8;

/**
 * The largest rated impedance that a smallest modulus supports; null below 3.2 Ω.
 * @source lowest modulus not less than 80 % of the rated impedance: IEC 60268-5, 16.1, from memory, and Visaton's
 * dictionary, "Impedance curve".
 */
export function ratedImpedance(lowestOhm: number): number | null {
  // A reading that is exact on paper may be a rounding error short of it in binary.
  return ratedValuesOhm.findLast((rated) => lowestOhm >= ratedShare * rated * (1 - 1e-12)) ?? null;
}

/** Rated impedance, resonance and apparent inductance of an impedance sweep. */
export function impedanceDetails(sweep: ImpedanceSweep & { phaseDeg?: Float64Array }): ImpedanceDetails {
  const points = impedancePoints(sweep);
  const lowest = points.reduce((found, { ohm }) => Math.min(found, ohm), Number.POSITIVE_INFINITY);
  return {
    ratedOhm: points.length > 0 ? ratedImpedance(lowest) : null,
    resonance: resonanceOf(points),
    inductance: apparentInductance(points),
    withPhase: points.some(({ phaseDeg }) => phaseDeg !== null),
  };
}

/** Usable points in ascending order of frequency; the phase of a point is null where it is no number. */
export function impedancePoints({
  frequencyHz,
  ohm,
  phaseDeg,
}: ImpedanceSweep & { phaseDeg?: Float64Array }): ImpedancePoint[] {
  return Array.from(frequencyHz, (atHz, i) => {
    const phase = phaseDeg?.[i] ?? Number.NaN;
    return { atHz, ohm: ohm[i] ?? 0, phaseDeg: isReading(phase) ? phase : null };
  })
    .filter(({ atHz, ohm: size }) => isPositive(atHz) && isPositive(size))
    .sort((a, b) => a.atHz - b.atHz);
}
