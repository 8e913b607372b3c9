import { angleDeg, type Complex, modulus, over, polar, scaledBy } from '../fit/complex.ts';
import { phasorAt, phasorCurves } from '../record/phasor-curve.ts';
import { impedancePoints } from './impedance-details.ts';
import { valueAt } from './interpolate.ts';
import { isReading } from './sweep-columns.ts';

/** The level across one load at one drive; all arrays have equal length. */
export interface LoadedLevel {
  loadOhm: number;
  frequencyHz: Float64Array;
  /** rms, SI; both loads in the same unit. */
  level: Float64Array;
  phaseDeg?: Float64Array;
}

/** An impedance against frequency; a modulus without phase is all that levels without phase allow. */
export interface ImpedanceCurve {
  frequencyHz: Float64Array;
  ohm: Float64Array;
  /** Null where phase is not known. */
  phaseDeg: Float64Array | null;
}

/** An impedance sweep as a curve in ascending order; unusable points are left out, and phase where it has gaps. */
export function impedanceCurve(sweep: {
  frequencyHz: Float64Array;
  ohm: Float64Array;
  phaseDeg?: Float64Array;
}): ImpedanceCurve {
  const points = impedancePoints(sweep);
  const withPhase = points.length > 0 && points.every(({ phaseDeg }) => phaseDeg !== null);
  return {
    frequencyHz: Float64Array.from(points, ({ atHz }) => atHz),
    ohm: Float64Array.from(points, ({ ohm }) => ohm),
    phaseDeg: withPhase ? Float64Array.from(points, ({ phaseDeg }) => phaseDeg ?? 0) : null,
  };
}

/** Output impedance against frequency. */
export interface OutputImpedance extends ImpedanceCurve {
  /** Half width of the 95 % interval of the modulus, ohms; null where no reading accuracy is stated. */
  halfWidthOhm: Float64Array | null;
  /** Frequencies at which the two levels give no impedance. */
  leftOut: number;
}

/** A stated limit of error counts as an even spread between its bounds. */
const limitToStandard = 1 / Math.sqrt(3);
const coverage = 1.959963984540054;

/**
 * Output impedance of a source from its level across two loads at the same drive: Zo = (V1 − V2)/(V2/R2 − V1/R1),
 * with phasors where both levels have phase. From levels alone it is the resistance that would explain them, which
 * falls short of a reactive impedance. At frequencies of the first load that the second one covers.
 *
 * `readingAccuracy` is the limit within which two readings of a level agree, as a share of it; what both readings
 * have in common does not matter. The errors of two readings are taken as independent.
 *
 * @source two loads: circuit theory; a stated limit as a rectangular distribution: JCGM 100:2008, 4.3.7.
 */
export function outputImpedance(
  first: LoadedLevel,
  second: LoadedLevel,
  readingAccuracy: number | null = null,
): OutputImpedance {
  const [a, b] = [phasorCurves(first), phasorCurves(second)];
  const places = Array.from(a.level?.axis ?? []).filter(
    (hertz) => b.level && valueAt(b.level, hertz) !== null,
  );
  const withPhase = a.phase !== null && b.phase !== null;
  const found = places.map((hertz) => {
    const [v1, v2] = [phasorAt(a, hertz, withPhase), phasorAt(b, hertz, withPhase)];
    if (!v1 || !v2) return { hertz, ohm: null, halfWidth: 0 };
    const ratio = over(v1, v2);
    const below = { re: 1 / second.loadOhm - ratio.re / first.loadOhm, im: -ratio.im / first.loadOhm };
    const slope = Math.abs(1 / second.loadOhm - 1 / first.loadOhm) / modulus(below) ** 2;
    const spread = (readingAccuracy ?? 0) * limitToStandard * Math.SQRT2 * modulus(ratio);
    return {
      hertz,
      ohm: over({ re: ratio.re - 1, im: ratio.im }, below),
      halfWidth: coverage * slope * spread,
    };
  });
  const usable = found.filter(
    (entry): entry is { hertz: number; ohm: Complex; halfWidth: number } =>
      entry.ohm !== null && isReading(entry.ohm.re) && isReading(entry.ohm.im) && isReading(entry.halfWidth),
  );
  const column = (pick: (entry: (typeof usable)[number]) => number) => Float64Array.from(usable, pick);
  return {
    frequencyHz: column(({ hertz }) => hertz),
    ohm: column(({ ohm }) => (withPhase ? modulus(ohm) : ohm.re)),
    phaseDeg: withPhase ? column(({ ohm }) => angleDeg(ohm)) : null,
    halfWidthOhm: readingAccuracy === null ? null : column(({ halfWidth }) => halfWidth),
    leftOut: found.length - usable.length,
  };
}

/** An impedance curve's value at a frequency, of phase zero where phase is not known; null outside the curve. */
export function impedanceAt({ frequencyHz, ohm, phaseDeg }: ImpedanceCurve, hertz: number): Complex | null {
  const between = ohm.every((value) => value > 0) ? 'power' : 'straight';
  const size = valueAt({ axis: frequencyHz, values: ohm, between }, hertz);
  const degrees = phaseDeg ? valueAt({ axis: frequencyHz, values: phaseDeg, between: 'straight' }, hertz) : 0;
  if (size === null || degrees === null) return null;
  return phaseDeg ? polar(size, degrees) : scaledBy({ re: 1, im: 0 }, size);
}
