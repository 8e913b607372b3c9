import { powerThreshold, rateOfEach } from './detection.ts';
import type { FittedRecord } from './fit-record.ts';
import type { HarmonicFit } from './harmonic-fit.ts';
import { unitVariances } from './normal-equations.ts';
import { roundingVariance } from './quantisation.ts';
import { densityNear, freedomOf, overallDensity } from './residual-density.ts';
import type { Fundamental, Harmonic } from './types.ts';
import { wrapDegrees } from './wrap-degrees.ts';

/** Probability that noise alone gets any harmonic of a record marked as detected. */
export const falseAlarmPerRecord = 0.05;
/** Double arithmetic resolves no harmonic below this part of the fundamental. */
const arithmetic = 2 ** -50;

/** Standard deviation of one component of a fitted line, re the fundamental's amplitude, and its freedom. */
export interface LineUncertainty {
  relative: number;
  freedom: number;
}

/** What limits the fitted lines of a record. */
export interface NoiseFloor {
  /** Standard deviation of the noise at large, the rounding to levels taken off. */
  noise: number;
  /** Variance that rounding to levels puts into each component of a harmonic; 0 without levels. */
  rounding: number;
  /** One entry for each order, the fundamental first. */
  lines: LineUncertainty[];
  /** Degrees of freedom behind all lines together; neighbouring lines are read from the same part of the residual. */
  freedom: number;
  /** How much the angle's variance exceeds the bound for many cycles. */
  angleExcess: number;
}

/**
 * The noise that each fitted line has met: variance 2·S/N of either component (or what the fit makes of it where the
 * record is short) for a residual of density S near the line, and the share of rounding to levels. For white noise of
 * variance σ² the density is σ².
 *
 * @source asymptotic variance of a least-squares line in coloured noise, set by the density at its frequency: E. J.
 * Hannan, J. Appl. Probab. 10:510 (1973); in white noise the Cramér-Rao bound of D. C. Rife and R. R. Boorstyn, IEEE
 * Trans. Inform. Theory 20:591 (1974); both from memory.
 */
export function noiseFloor(fitted: FittedRecord, step: number | null): NoiseFloor {
  const { amplitude, cycles, fit, residual, spectrum } = fitted;
  const rows = residual.length;
  const density = overallDensity(spectrum, cycles);
  const rounding = step === null ? 0 : roundingVariance({ step, amplitude, cycles, rows, density });
  const { components, angle } = unitVariances(rows, fit.angle, fit);
  const densities = components.map((_, i) => densityNear(spectrum, (i + 1) * cycles, cycles));
  const lines = densities.map((near, i) => {
    const unitVariance = components[i] ?? 0;
    const variance = unitVariance * near.density + rounding;
    return { relative: Math.max(Math.sqrt(variance) / amplitude, arithmetic), freedom: near.freedom };
  });
  const noise = Math.sqrt(Math.max(0, density.typical - (step === null ? 0 : (step * step) / 12)));
  const freedom = freedomOf(spectrum, new Set(densities.flatMap((near) => near.lines)).size);
  return { noise, rounding, lines, freedom, angleExcess: angle / uncoupledAngleVariance(fit, rows) };
}

/** Variance of the angle for unit white noise, were it the only unknown besides amplitude and phase of each line. */
function uncoupledAngleVariance({ cosine, sine }: HarmonicFit, rows: number): number {
  const information = cosine.reduce((sum, a, i) => sum + (i + 1) ** 2 * (a * a + (sine[i] ?? 0) ** 2), 0);
  return 24 / (rows * (rows * rows - 1) * information);
}

/**
 * The fitted harmonics from the second on, re the fundamental.
 * A harmonic is detected when its power exceeds that of its own noise further than chance would make any of them.
 */
export function harmonicFigures(fitted: FittedRecord, { lines }: NoiseFloor, rateHz: number): Harmonic[] {
  const { fit, amplitude, residual } = fitted;
  const falseAlarm = rateOfEach(falseAlarmPerRecord, fit.cosine.length - 1);
  return fit.cosine.slice(1).map((cosine, i) => {
    const order = i + 2;
    const ratio = Math.hypot(cosine, fit.sine[order - 1] ?? 0) / amplitude;
    const { relative = arithmetic, freedom = 1 } = lines[order - 1] ?? {};
    return {
      order,
      frequencyHz: (order * fitted.cycles * rateHz) / residual.length,
      ratio,
      uncertainty: relative,
      relativePhaseDeg: wrapDegrees(((phaseOf(fitted, order) - order * phaseOf(fitted, 1)) * 180) / Math.PI),
      detected: ratio ** 2 > powerThreshold(falseAlarm, freedom) * 2 * relative ** 2,
    };
  });
}

/**
 * Frequency, level and phase of the fundamental. The frequency's uncertainty is the Cramér-Rao bound for the fundamental
 * alone, with the noise met by its line. Harmonics share in the frequency and lower the bound, but where the residual
 * holds further harmonics their errors add up instead, so they are given no credit.
 *
 * @source Rife and Boorstyn 1974: var ω = 24·σ²/(A²·N·(N² − 1)).
 */
export function fundamentalFigures(
  fitted: FittedRecord,
  { lines, angleExcess }: NoiseFloor,
  rateHz: number,
): Fundamental {
  const { fit, amplitude, residual, cycles } = fitted;
  const { length } = residual;
  const { relative = arithmetic } = lines[0] ?? {};
  const angleUncertainty = relative * Math.sqrt((12 * angleExcess) / (length * length - 1));
  const rms = amplitude / Math.SQRT2;
  return {
    frequencyHz: (cycles * rateHz) / length,
    frequencyUncertaintyHz: (angleUncertainty * rateHz) / (2 * Math.PI),
    rms,
    rmsUncertainty: rms * relative,
    phaseDeg: wrapDegrees(((phaseOf(fitted, 1) - (fit.angle * (length - 1)) / 2) * 180) / Math.PI),
  };
}

/** Phase of an order as a cosine in the middle of the record, radians. */
export function phaseOf({ fit }: FittedRecord, order: number): number {
  return Math.atan2(-(fit.sine[order - 1] ?? 0), fit.cosine[order - 1] ?? 0);
}
