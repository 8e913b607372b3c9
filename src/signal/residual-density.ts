import { medianOf, sumOf } from './statistics.ts';
import { exactPower, paddedPower, transformSize } from './transform.ts';

/**
 * Power density of a residual: |R|²/N, which for white noise of variance σ² has the mean σ². The record is not
 * windowed: least squares weighs the samples evenly, so this is what its estimates meet.
 */
export interface ResidualSpectrum {
  /** At the record's own lines 0 … N/2, one cycle per record apart. */
  own: Float64Array;
  /** At lines half a cycle per record apart or less: a tone on one of the record's own lines shows its skirts here. */
  fine: Float64Array;
  /** Fine lines for each cycle per record. */
  finePerCycle: number;
  /** Number of samples N. */
  length: number;
}

/** A density and the degrees of freedom of its estimate (those of the chi-square that spreads as much). */
export interface LocalDensity {
  density: number;
  freedom: number;
  /** The fine lines it was read from. */
  lines: number[];
}

/** Independent lines that a local estimate is read from where the record has them. */
const enoughLines = 32;
/** Lines that an estimate is read from even when they lie further off than the frequency itself. */
const fewestLines = 10;

/** Density of a residual, line by line. */
export function residualSpectrum(residual: Float64Array): ResidualSpectrum {
  const { length } = residual;
  const size = transformSize(length, 2);
  const fine = paddedPower(residual, size);
  const own = size === 2 * length ? everySecond(fine) : exactPower(residual);
  return { own, fine, finePerCycle: size / length, length };
}

function everySecond(fine: Float64Array): Float64Array {
  const own = new Float64Array((fine.length + 1) >> 1);
  for (let line = 0; line < own.length; line++) own[line] = fine[2 * line] ?? 0;
  return own;
}

/**
 * The residual's density about one frequency: the median of the lines around it divided by ln 2, leaving out the
 * lines next to the multiples of the fundamental. The lines reach as far as the frequency itself at most, so that a
 * slope such as 1/f is met evenly on both sides; the median keeps a single tone nearby from counting as noise.
 *
 * @source periodogram ordinates of noise are independent exponentials: Brockwell and Davis, Time Series: Theory and
 * Methods, 2nd ed., theorem 10.3.2, from memory; the median of an exponential is ln 2 times its mean, and the median
 * of n of them varies like a chi-square of about n degrees of freedom.
 */
export function densityNear(spectrum: ResidualSpectrum, cycles: number, fundamental: number): LocalDensity {
  const lines = linesAround(spectrum, cycles, fundamental);
  return {
    density: medianOf(densitiesAt(spectrum, lines)) / Math.LN2,
    freedom: freedomOf(spectrum, lines.length),
    lines,
  };
}

/** Degrees of freedom of a median of fine lines. */
export function freedomOf({ finePerCycle }: ResidualSpectrum, lines: number): number {
  return Math.max(1, lines / finePerCycle);
}

/** The residual's density at some of its fine lines. */
export function densitiesAt({ fine }: ResidualSpectrum, lines: readonly number[]): Float64Array {
  return Float64Array.from(lines, (line) => fine[line] ?? 0);
}

/** Density of the residual at large, away from the harmonics. */
export interface OverallDensity {
  /** From the median: the noise between whatever tones there are. */
  typical: number;
  /** Tones included. */
  mean: number;
}

/** Density of the residual at large, from evenly spread lines. */
export function overallDensity(
  { fine, finePerCycle }: ResidualSpectrum,
  fundamental: number,
): OverallDensity {
  const stride = Math.ceil(fine.length / 4096);
  const values: number[] = [];
  for (let line = 1; line < fine.length; line += stride) {
    if (!nearHarmonic(line / finePerCycle, fundamental)) values.push(fine[line] ?? 0);
  }
  const lines = Float64Array.from(values);
  return { typical: medianOf(lines) / Math.LN2, mean: sumOf(lines) / Math.max(1, lines.length) };
}

/** Fine lines around a frequency, nearest first, away from the harmonics. */
function linesAround(
  { fine, finePerCycle }: ResidualSpectrum,
  cycles: number,
  fundamental: number,
): number[] {
  const found: number[] = [];
  const centre = Math.round(cycles * finePerCycle);
  const admit = (line: number) => {
    const inside = line > 0 && line < fine.length;
    if (inside && !nearHarmonic(line / finePerCycle, fundamental)) found.push(line);
  };
  for (let away = 1; away < fine.length; away++) {
    const independent = found.length / finePerCycle;
    if (independent >= enoughLines || (independent >= fewestLines && away > cycles * finePerCycle)) break;
    admit(centre - away);
    admit(centre + away);
  }
  return found;
}

/** True next to zero frequency and to any multiple of the fundamental, where the fit has emptied the residual. */
function nearHarmonic(cycles: number, fundamental: number): boolean {
  const distance = Math.abs(cycles - Math.round(cycles / fundamental) * fundamental);
  return distance < Math.min(1, 0.375 * fundamental);
}
