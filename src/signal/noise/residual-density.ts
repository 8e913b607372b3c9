import { exactPower, paddedPower, transformSize } from '../fit/transform.ts';
import { medianOf } from '../statistics/median.ts';
import { sumOf } from '../statistics/statistics.ts';

/**
 * Power density of a residual: |R|²/N, which for white noise of variance σ² has the mean σ². The record is not
 * windowed: least squares weighs the samples evenly, so this is what its estimates meet.
 */
export interface ResidualSpectrum {
  /** Holds the record's own lines 0 … N/2, one cycle per record apart, at every `ownStep`-th place. */
  own: Float64Array;
  ownStep: number;
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
const fewestLines = 9;

/** Degrees of freedom for each cycle per record that a median's lines cover. */
const freedomPerCycle = 4 / 3;

/** Density of a residual, line by line. */
export function residualSpectrum(residual: Float64Array): ResidualSpectrum {
  const { length } = residual;
  const size = transformSize(length, 2);
  const fine = paddedPower(residual, size);
  const own = size === 2 * length ? { own: fine, ownStep: 2 } : { own: exactPower(residual), ownStep: 1 };
  return { ...own, fine, finePerCycle: size / length, length };
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
  return densityAround(spectrum, cycles, (at) => nearHarmonic(at, fundamental));
}

/** The density about one frequency of a residual which the fit has emptied at other places; see {@link densityNear}. */
export function densityAround(
  spectrum: ResidualSpectrum,
  cycles: number,
  emptied: (cycles: number) => boolean,
): LocalDensity {
  const lines = linesAround(spectrum, cycles, emptied);
  return {
    density: medianOf(densitiesAt(spectrum, lines)) / Math.LN2,
    freedom: freedomOf(spectrum, lines.length),
    lines,
  };
}

/**
 * How loud an estimate hears a line at x cycles from its own: tail/(2π²x²) of its power. For amplitudes, which weigh
 * lines by (sin(πx)/πx)², the tail is 1; for the angle, which weighs them by the square of that function's derivative, 3.
 */
export type Tail = 1 | 3;

/** An estimate at so many cycles per record, and the local density there. */
export interface EstimateAt {
  cycles: number;
  /** The fit has emptied the residual at its multiples; at none of them where it is left out. */
  fundamental?: number;
  near: number;
  tail: Tail;
}

/** Nearer lines, in cycles, are the estimate's own. */
const own = 1;
/** The skirts of tones further off than this, in cycles, are part of the local density already. */
const skirts = 6;

/**
 * The density that an estimate meets: the local one, which leaves single tones out, with the lines that the estimate
 * also weighs put in its place, but for those that the fit has emptied. So hum beside a harmonic widens that harmonic's
 * uncertainty, and a strong tone or a slope far off widens the uncertainty of the frequency, which hears them three
 * times as loud as amplitudes do.
 *
 * @source variance of a linear estimate in coloured noise, the density weighed by the estimate's transfer function:
 * U. Grenander and M. Rosenblatt, Statistical Analysis of Stationary Time Series (1957), ch. 7, from memory.
 */
export function densityMet(
  { fine, finePerCycle, length }: ResidualSpectrum,
  { cycles, fundamental = length, near, tail }: EstimateAt,
): number {
  const centre = cycles * finePerCycle;
  const reach = tail === 1 ? skirts * finePerCycle : fine.length;
  const last = Math.min(fine.length - 1, centre + reach);
  let weights = 0;
  let sum = 0;
  const first = Math.max(1, Math.ceil(centre - reach));
  const atOneLine = (tail * finePerCycle * finePerCycle) / (2 * Math.PI * Math.PI);
  const [ownSquare, skirtsSquare] = [(own * finePerCycle) ** 2, (skirts * finePerCycle) ** 2];
  const beyond = (tail - 1) / tail;
  for (const run of clearRuns(first, last, finePerCycle, fundamental)) {
    for (let line = run.first; line <= run.last; line++) {
      const square = (line - centre) * (line - centre);
      if (square < ownSquare) continue;
      const heard = atOneLine / square;
      // The fit has taken off the residual's line what the estimate heard of it.
      const weight = square > skirtsSquare ? beyond * heard : heard / (1 - heard);
      weights += weight;
      sum += weight * (fine[line] ?? 0);
    }
  }
  return (1 - weights / finePerCycle) * near + sum / finePerCycle;
}

/** Runs of fine lines, between two of them, that stand clear of all multiples of the fundamental. */
function* clearRuns(first: number, last: number, finePerCycle: number, fundamental: number) {
  const reach = emptiedBeside(fundamental);
  const place = (multiple: number, away: number) => (multiple * fundamental + away) * finePerCycle;
  for (let below = Math.floor(first / place(1, 0)); place(below, 0) <= last; below++) {
    yield {
      first: Math.max(first, Math.ceil(place(below, reach))),
      last: Math.min(last, Math.floor(place(below + 1, -reach))),
    };
  }
}

/**
 * Degrees of freedom of a median of fine lines: those between the record's own lines carry a third more than these
 * alone, by simulation of white noise (the median's variance, 20,000 records, 10 to 32 cycles).
 */
export function freedomOf({ finePerCycle }: ResidualSpectrum, lines: number): number {
  return Math.max(1, (freedomPerCycle * lines) / finePerCycle);
}

/** The residual's density at some of its fine lines. */
export function densitiesAt({ fine }: ResidualSpectrum, lines: readonly number[]): Float64Array {
  const densities = new Float64Array(lines.length);
  for (const [at, line] of lines.entries()) densities[at] = fine[line] ?? 0;
  return densities;
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

/** Fine lines around a frequency, nearest first, away from where the fit has emptied the residual. */
function linesAround(
  { fine, finePerCycle }: ResidualSpectrum,
  cycles: number,
  emptied: (cycles: number) => boolean,
): number[] {
  const found: number[] = [];
  const centre = Math.round(cycles * finePerCycle);
  const admit = (line: number) => {
    const inside = line > 0 && line < fine.length;
    if (inside && !emptied(line / finePerCycle)) found.push(line);
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
export function nearHarmonic(cycles: number, fundamental: number): boolean {
  const distance = Math.abs(cycles - Math.round(cycles / fundamental) * fundamental);
  return distance < emptiedBeside(fundamental);
}

/** How far from a multiple of the fundamental, in cycles, the fit has emptied the residual. */
const emptiedBeside = (fundamental: number) => Math.min(1, 0.375 * fundamental);
