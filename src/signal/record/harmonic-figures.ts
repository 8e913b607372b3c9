import type { FittedRecord } from '../fit/fit-record.ts';
import type { HarmonicFit } from '../fit/harmonic-fit.ts';
import { unitVariances } from '../fit/normal-equations.ts';
import { densityMet, densityNear, freedomOf, overallDensity } from '../noise/residual-density.ts';
import { studentTwoSided95 } from '../statistics/student.ts';
import { thdInterval } from '../statistics/thd-interval.ts';
import type { Fundamental, Harmonic } from '../types.ts';
import { powerThreshold, rateOfEach } from './detection.ts';
import { roundingVariance } from './quantisation.ts';
import { wrapDegrees } from './wrap-degrees.ts';

/** Probability that noise alone gets any harmonic of a record marked as detected. */
export const falseAlarmPerRecord = 0.05;
/** Double arithmetic resolves no harmonic below this part of the fundamental. */
const arithmetic = 2 ** -50;

/** Standard deviation of one component of a fitted line, re the fundamental's amplitude, and its freedom. */
export interface LineUncertainty {
  relative: number;
  /** The part of it that is noise, without the tones nearby. */
  sure: number;
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
  /** Standard deviation of the fundamental's angle, radians per sample. */
  angle: number;
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
    const met = densityMet(spectrum, {
      cycles: (i + 1) * cycles,
      fundamental: cycles,
      near: near.density,
      tail: 1,
    });
    const relative = (density: number) =>
      Math.max(Math.sqrt(unitVariance * density + rounding) / amplitude, arithmetic);
    return {
      relative: relative(met),
      sure: relative(Math.min(met, near.density)),
      freedom: near.freedom,
    };
  });
  const noise = Math.sqrt(Math.max(0, density.typical - (step === null ? 0 : (step * step) / 12)));
  const freedom = freedomOf(spectrum, jointLines(densities.map((near) => near.lines)));
  const ofAngle = {
    cycles,
    fundamental: cycles,
    near: densities[0]?.density ?? density.typical,
    tail: 3,
  } as const;
  const met = (components[0] ?? 0) * densityMet(spectrum, ofAngle) + rounding;
  const excess = angle / uncoupledAngleVariance(fit, rows);
  const relative = Math.max(Math.sqrt(met) / amplitude, arithmetic);
  return {
    noise,
    rounding,
    lines,
    freedom,
    angle: relative * Math.sqrt((12 * excess) / (rows * rows - 1)),
  };
}

/**
 * As many independent lines as make the sum of means over some sets of lines vary as it does, sets that overlap
 * included: k²/Σ w² for k sets, where a line's w is the sum of one over the size of each set that it belongs to.
 */
function jointLines(sets: readonly (readonly number[])[]): number {
  const weights = new Map<number, number>();
  for (const lines of sets)
    for (const line of lines) weights.set(line, (weights.get(line) ?? 0) + 1 / lines.length);
  const squares = [...weights.values()].reduce((sum, weight) => sum + weight * weight, 0);
  return squares > 0 ? sets.length ** 2 / squares : 0;
}

/** Variance of the angle for unit white noise, were it the only unknown besides amplitude and phase of each line. */
function uncoupledAngleVariance({ cosine, sine }: HarmonicFit, rows: number): number {
  const information = cosine.reduce((sum, a, i) => sum + (i + 1) ** 2 * (a * a + (sine[i] ?? 0) ** 2), 0);
  return 24 / (rows * (rows * rows - 1) * information);
}

/**
 * The fitted harmonics from the second on, re the fundamental. The 95 % interval of each is that of a sum of one square.
 * A harmonic is detected when its power exceeds that of its own noise further than chance would make any of them.
 */
export function harmonicFigures(fitted: FittedRecord, { lines }: NoiseFloor, rateHz: number): Harmonic[] {
  const { fit, amplitude, residual } = fitted;
  const falseAlarm = rateOfEach(falseAlarmPerRecord, fit.cosine.length - 1);
  return fit.cosine.slice(1).map((cosine, i) => {
    const order = i + 2;
    const ratio = Math.hypot(cosine, fit.sine[order - 1] ?? 0) / amplitude;
    const { relative = arithmetic, sure = arithmetic, freedom = 1 } = lines[order - 1] ?? {};
    const alone = { ratio, uncertainty: relative, sure, freedom };
    const fundamentalUncertainty = lines[0]?.relative ?? arithmetic;
    return {
      order,
      frequencyHz: (order * fitted.cycles * rateHz) / residual.length,
      ratio,
      uncertainty: relative,
      ...thdInterval({ harmonics: [alone], fundamentalUncertainty, freedom }),
      relativePhaseDeg: wrapDegrees(((phaseOf(fitted, order) - order * phaseOf(fitted, 1)) * 180) / Math.PI),
      detected: ratio ** 2 > powerThreshold(falseAlarm, freedom) * 2 * relative ** 2,
    };
  });
}

/**
 * Frequency, level and phase of the fundamental. The frequency's uncertainty is the Cramér-Rao bound for the fundamental
 * alone, with the noise met by it. Harmonics share in the frequency and lower the bound, but where the residual
 * holds further harmonics their errors add up instead, so they are given no credit.
 *
 * @source Rife and Boorstyn 1974: var ω = 24·σ²/(A²·N·(N² − 1)).
 */
export function fundamentalFigures(
  fitted: FittedRecord,
  { lines, angle }: NoiseFloor,
  rateHz: number,
): Fundamental {
  const { fit, amplitude, residual, cycles } = fitted;
  const { length } = residual;
  const { relative = arithmetic, freedom = 1 } = lines[0] ?? {};
  const rms = amplitude / Math.SQRT2;
  return {
    frequencyHz: (cycles * rateHz) / length,
    frequencyUncertaintyHz: (angle * rateHz) / (2 * Math.PI),
    rms,
    rmsUncertainty: rms * relative,
    coverageFactor: studentTwoSided95(freedom),
    freedom,
    phaseDeg: wrapDegrees(((phaseOf(fitted, 1) - (fit.angle * (length - 1)) / 2) * 180) / Math.PI),
  };
}

/** Phase of an order as a cosine in the middle of the record, radians. */
export function phaseOf({ fit }: FittedRecord, order: number): number {
  return Math.atan2(-(fit.sine[order - 1] ?? 0), fit.cosine[order - 1] ?? 0);
}
