import { densityMet, overallDensity, type Tail } from '../noise/residual-density.ts';
import { powerThreshold, rateOfEach } from '../record/detection.ts';
import { falseAlarmPerRecord } from '../record/harmonic-figures.ts';
import { wrapDegrees } from '../record/wrap-degrees.ts';
import { studentTwoSided95 } from '../statistics/student.ts';
import { thdInterval } from '../statistics/thd-interval.ts';
import type { Fundamental } from '../types.ts';
import { combinationName } from './combinations.ts';
import type { FittedCombination, FittedPair } from './tone-pair.ts';
import type { CombinationLine } from './two-tone-types.ts';

/** Double arithmetic resolves no line below this part of the tones. */
const arithmetic = 2 ** -50;

/** A fitted line as it reads re the upper tone, with the freedom of its noise. */
export interface MeasuredLine extends CombinationLine {
  freedom: number;
  /** The fine lines of the residual that its noise was read from. */
  noiseLines: readonly number[];
}

/**
 * The fitted lines besides the tones, re the upper tone, each with its own noise; detected when its power exceeds that
 * noise further than chance would make any of them.
 */
export function combinationLines(fitted: FittedPair, step: number | null, rateHz: number): MeasuredLine[] {
  const { others, lower, upper, residual } = fitted;
  const falseAlarm = rateOfEach(falseAlarmPerRecord, others.length);
  const rounding = roundingVariance(fitted, step);
  const reference = upper.amplitude;
  const referenceUncertainty = componentDeviation(fitted, upper, rounding) / reference;
  const phaseOf = (line: FittedCombination) => phaseAtStart(line, residual.length);
  const [lowerPhase, upperPhase] = [phaseOf(lower), phaseOf(upper)];
  return others.map((line) => {
    const { first, second, order, amplitude, cycles, near } = line;
    const ratio = amplitude / reference;
    const uncertainty = Math.max(componentDeviation(fitted, line, rounding) / reference, arithmetic);
    const { freedom } = near;
    return {
      name: combinationName(line),
      ...{ first, second, order, ratio, uncertainty, freedom },
      frequencyHz: (cycles * rateHz) / residual.length,
      relativePhaseDeg: wrapDegrees(
        ((phaseOf(line) - first * lowerPhase - second * upperPhase) * 180) / Math.PI,
      ),
      ...thdInterval({
        harmonics: [{ ratio, uncertainty, freedom }],
        fundamentalUncertainty: referenceUncertainty,
        freedom,
      }),
      detected: ratio ** 2 > powerThreshold(falseAlarm, freedom) * 2 * uncertainty ** 2,
      noiseLines: near.lines,
    };
  });
}

/** Standard deviation of one component of a fitted line, in the record's unit (peak). */
function componentDeviation(
  { spectrum }: FittedPair,
  { line, cycles, near }: FittedCombination,
  rounding: number,
  tail: Tail = 1,
): number {
  const met = densityMet(spectrum, { cycles, near: near.density, tail });
  return Math.sqrt(line.unitVariance * met + rounding);
}

/**
 * Variance that rounding to levels puts into each component of a line beyond the noise seen between the lines: what the
 * residual lacks of the rounding error's q²/12 has fallen on the fitted lines.
 *
 * @source mean square of a rounding error: B. Widrow and I. Kollár, Quantization Noise (2008), from memory.
 */
function roundingVariance({ spectrum, residual, others }: FittedPair, step: number | null): number {
  if (step === null) return 0;
  const { mean } = overallDensity(spectrum, residual.length);
  return Math.max(0, (step * step) / 12 - mean) / (others.length + 2);
}

/**
 * Frequency, level and phase of one of the two tones.
 * @source D. C. Rife and R. R. Boorstyn, IEEE Trans. Inform. Theory 20:591 (1974): var ω = 24·σ²/(A²·N·(N² − 1)).
 */
export function toneFigures(
  fitted: FittedPair,
  tone: FittedCombination,
  step: number | null,
  rateHz: number,
): Fundamental {
  const { length } = fitted.residual;
  const { amplitude, cycles, near } = tone;
  const rounding = roundingVariance(fitted, step);
  const relative = (tail: Tail) =>
    Math.max(componentDeviation(fitted, tone, rounding, tail) / amplitude, arithmetic);
  const rms = amplitude / Math.SQRT2;
  return {
    frequencyHz: (cycles * rateHz) / length,
    frequencyUncertaintyHz: (relative(3) * Math.sqrt(12 / (length * length - 1)) * rateHz) / (2 * Math.PI),
    rms,
    rmsUncertainty: rms * relative(1),
    coverageFactor: studentTwoSided95(near.freedom),
    freedom: near.freedom,
    phaseDeg: wrapDegrees((phaseAtStart(tone, length) * 180) / Math.PI),
  };
}

/** Phase of a tone as a cosine at the first sample, radians. */
export function phaseAtStart({ line }: FittedCombination, length: number): number {
  return Math.atan2(-line.sine, line.cosine) - (line.angle * (length - 1)) / 2;
}
