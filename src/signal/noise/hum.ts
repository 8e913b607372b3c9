import { type FittedLine, fitLines, type LineFit } from '../fit/line-fit.ts';
import { densityLeft, type Remainder } from '../fit/remainder.ts';
import { withoutLines } from '../fit/residual.ts';
import { type Finding, detailMessages as messages } from '../messages.ts';
import { powerThreshold, rateOfEach } from '../record/detection.ts';
import { type NoisyHarmonic, thdInterval } from '../statistics/thd-interval.ts';
import { mainsCycles } from './mains-frequency.ts';
import { freedomOf, type LocalDensity, residualSpectrum } from './residual-density.ts';

/** One multiple of the mains frequency. All levels are null where the line is left to a harmonic. */
export interface HumLine {
  multiple: number;
  frequencyHz: number;
  rms: number | null;
  /** 95 % interval for the true level; on noise alone it begins at 0. */
  low: number | null;
  high: number | null;
  /** False where noise alone could have given this level. */
  detected: boolean;
  /** Order of the harmonic that the line cannot be told from; null for a line of its own. */
  harmonic: number | null;
}

/** Lines at the mains frequency and its multiples. */
export interface Hum {
  /** As found in the record; the nominal one where no line stands clear of the noise. */
  mainsHz: number;
  lines: HumLine[];
  /** Root sum of squares of the lines that are not left to harmonics, raw, with the 95 % interval of the true sum. */
  rms: number;
  low: number;
  high: number;
}

export interface HumOptions {
  rateHz: number;
  /** Nominal frequency of the mains. */
  mainsHz: number;
}

/** Hum with what is left of the record without it, or why there is none. */
export interface HumResult {
  hum: Hum | null;
  remainder: Remainder;
  finding: Finding | null;
}

const mostMultiples = 10;
/**
 * Fewest cycles of the mains: its lines then stand four cycles per record apart, with enough lines between them to read
 * the noise from. In noise that rises towards low frequencies two cycles are not enough for the intervals to hold.
 */
const fewestCycles = 4;
/** Lines nearer than this, in cycles per record, are not told apart. */
const resolution = 1;
/** Probability that noise alone gets any line of a record marked as detected. */
const falseAlarm = 0.05;

/**
 * Levels of the lines at the mains frequency and up to ten multiples, fitted together with constant and harmonics by
 * least squares once the mains frequency itself is found. A multiple that stands less than one cycle per record from a
 * multiple of the fundamental is left to that harmonic. Each line's noise is read from what is left near it, its
 * interval is that of a harmonic, and so is that of the sum. Where no line stands clear of the noise, what they hold is
 * left in it.
 */
export function measureHum(remainder: Remainder, { rateHz, mainsHz }: HumOptions): HumResult {
  const rows = remainder.values.length;
  const nominal = (mainsHz * rows) / rateHz;
  const none = (finding: Finding) => ({ hum: null, remainder, finding });
  if (nominal < fewestCycles) return none(messages.humNotResolved(rows / rateHz, fewestCycles / mainsHz));
  const multiples = Math.min(mostMultiples, Math.floor((rows / 2 - 1) / (1.01 * nominal)));
  if (multiples < 1) return none(messages.mainsAboveHalfRate(mainsHz));
  const { values: residual, spectrum, fundamental, taken } = remainder;
  const found = mainsCycles({ residual, spectrum, fundamental, nominal, multiples });
  const cycles = found ?? nominal;
  const places = Array.from({ length: multiples }, (_, i) => placeOf(i + 1, (i + 1) * cycles, remainder));
  const own = places.filter(({ harmonic }) => harmonic === null);
  if (own.length === 0) return none(messages.humLeftToHarmonics());
  const ownCycles = own.map((place) => place.cycles);
  const toAngle = (line: number) => (2 * Math.PI * line) / rows;
  const fit = fitLines(residual, ownCycles.map(toAngle), taken.map(toAngle));
  const { lines, rest } = besideHum(remainder, { fit, ownCycles, isThere: found !== null });
  return {
    hum: { mainsHz: (cycles * rateHz) / rows, ...described(places, lines, rest, rateHz) },
    remainder: rest,
    finding: null,
  };
}

interface FittedHum {
  /** The lines taken away before, then those of the hum. */
  fit: LineFit;
  ownCycles: readonly number[];
  /** True where the mains was found; one of its lines may be clear without it. */
  isThere: boolean;
}

/** The lines of the hum with the noise beside them, and what is left of the record without them. */
function besideHum(remainder: Remainder, { fit, ownCycles, isThere }: FittedHum) {
  const beside = { ...remainder, taken: [...remainder.taken, ...ownCycles] };
  const fitted = fit.lines.slice(remainder.taken.length);
  const rate = rateOfEach(falseAlarm, fitted.length);
  const faint = noisyLines(fitted, beside);
  if (!isThere && !faint.some((line) => isDetected(line, rate))) return { lines: faint, rest: remainder };
  const values = withoutLines(remainder.values, fit.constant, fit.lines);
  const rest = { ...beside, values, spectrum: residualSpectrum(values) };
  return { lines: noisyLines(fitted, rest), rest };
}

/** True where noise alone would hardly give so strong a line. */
function isDetected({ ratio, uncertainty, freedom }: NoisyLine, rate: number): boolean {
  return ratio ** 2 > powerThreshold(rate, freedom) * 2 * uncertainty ** 2;
}

/** Where a multiple stands, and the harmonic it cannot be told from. */
interface Place {
  multiple: number;
  cycles: number;
  harmonic: number | null;
}

function placeOf(multiple: number, cycles: number, { fundamental }: Remainder): Place {
  const order = Math.round(cycles / fundamental);
  const apart = Math.abs(cycles - order * fundamental);
  return { multiple, cycles, harmonic: order > 0 && apart < resolution ? order : null };
}

/** A fitted line's rms with the standard deviation of either component, and the lines its noise was read from. */
interface NoisyLine extends NoisyHarmonic {
  freedom: number;
  near: LocalDensity;
}

function noisyLines(lines: readonly FittedLine[], remainder: Remainder): NoisyLine[] {
  return lines.map(({ angle, cosine, sine, unitVariance }) => {
    const near = densityLeft(remainder, (angle * remainder.values.length) / (2 * Math.PI));
    return {
      ratio: Math.hypot(cosine, sine) / Math.SQRT2,
      uncertainty: Math.sqrt((unitVariance * near.density) / 2),
      freedom: near.freedom,
      near,
    };
  });
}

function described(
  places: readonly Place[],
  lines: readonly NoisyLine[],
  { spectrum, values }: Remainder,
  rateHz: number,
): Omit<Hum, 'mainsHz'> {
  const rate = rateOfEach(falseAlarm, lines.length);
  const freedom = freedomOf(spectrum, new Set(lines.flatMap(({ near }) => near.lines)).size);
  const found = lines.values();
  return {
    lines: places.map(({ multiple, cycles, harmonic }) => ({
      multiple,
      frequencyHz: (cycles * rateHz) / values.length,
      ...levelOf(harmonic === null ? found.next().value : undefined, rate),
      harmonic,
    })),
    rms: Math.hypot(...lines.map(({ ratio }) => ratio)),
    ...thdInterval({ harmonics: lines, fundamentalUncertainty: 0, freedom }),
  };
}

function levelOf(line: NoisyLine | undefined, rate: number) {
  if (line === undefined) return { rms: null, low: null, high: null, detected: false };
  return {
    rms: line.ratio,
    ...thdInterval({ harmonics: [line], fundamentalUncertainty: 0, freedom: line.freedom }),
    detected: isDetected(line, rate),
  };
}
