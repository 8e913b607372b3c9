import { powerThreshold } from './detection.ts';
import { type FoldedRecord, fold, unfold } from './fold.ts';
import { fitHarmonics, type HarmonicFit } from './harmonic-fit.ts';
import { locateLines } from './locate-fundamental.ts';
import { strongestLowCycles } from './low-cycle-search.ts';
import { type Finding, waveformMessages } from './messages.ts';
import { residual } from './residual.ts';
import {
  densitiesAt,
  densityNear,
  type LocalDensity,
  type ResidualSpectrum,
  residualSpectrum,
} from './residual-density.ts';
import { sumOf } from './statistics.ts';

/** A record taken apart: constant, harmonics and what is left. */
export interface FittedRecord {
  fit: HarmonicFit;
  /** Cycles of the fundamental in the record. */
  cycles: number;
  /** Peak amplitude of the fundamental. */
  amplitude: number;
  residual: Float64Array;
  spectrum: ResidualSpectrum;
  /** Noise density near the fundamental. */
  near: LocalDensity;
  /** True where a movement of fewer than two cycles is stronger. */
  slowChange: boolean;
}

export type RecordFit = { fitted: FittedRecord; finding?: never } | { fitted?: never; finding: Finding };

/** Two cycles, less what noise may take off the count. */
const fewestCycles = 1.95;
/** Share of the record's variations that a sine of too few cycles must account for to be named as the reason. */
const mostly = 0.5;
/** Probability that the strongest line of pure noise passes for a fundamental. */
const falseFundamental = 1e-3;
/** A peak between lines of the search counts as one and a half independent trials for each line. */
const trialsPerLine = 1.5;

/**
 * Finds the fundamental of a record and fits it jointly with its harmonics up to `orders` (fewer where half the
 * sampling rate comes first). `window` is the search window's values for this length.
 */
export function fitRecord(values: Float64Array, window: Float64Array, orders: number): RecordFit {
  const record = fold(values);
  const lines = locateLines(values, window);
  for (const [rank, line] of lines.entries()) {
    const fitted = fitLine(record, line, orders);
    if (fitted !== null) return { fitted: { ...fitted, slowChange: lines.slice(0, rank).some(isSlow) } };
  }
  const slow = strongestLowCycles(values);
  const tooFew = isSlow(slow.cycles) && slow.explained > mostly;
  return {
    finding: tooFew ? waveformMessages.tooFewCycles(slow.cycles) : waveformMessages.noClearFundamental(),
  };
}

const isSlow = (cycles: number) => cycles < fewestCycles;

/** Fits one line and its harmonics; null where it has too few cycles or does not stand clear of the noise. */
function fitLine(
  record: FoldedRecord,
  line: number,
  orders: number,
): Omit<FittedRecord, 'slowChange'> | null {
  const { length } = record;
  const toAngle = (2 * Math.PI) / length;
  const sine = isUsable(line, length) ? fitHarmonics(record, { angle: line * toAngle, orders: 1 }) : null;
  const start = sine === null ? 0 : sine.angle / toAngle;
  if (!isUsable(start, length)) return null;
  const counted = Math.max(1, Math.min(orders, ordersBelowHalfRate(start, length)));
  const fit = fitHarmonics(record, { angle: start * toAngle, orders: counted });
  if (fit === null) return null;
  const cycles = fit.angle / toAngle;
  const fitted = takeApart(record, fit, cycles);
  return isUsable(cycles, length) && standsClear(fitted) ? fitted : null;
}

/** Lines within one cycle per record of half the sampling rate cannot be told from their image. */
function isUsable(cycles: number, length: number): boolean {
  return cycles >= fewestCycles && cycles <= length / 2 - 1;
}

/** The highest order whose line is usable. */
export function ordersBelowHalfRate(cycles: number, length: number): number {
  return Math.floor((length / 2 - 1) / cycles);
}

function takeApart(record: FoldedRecord, fit: HarmonicFit, cycles: number): Omit<FittedRecord, 'slowChange'> {
  const rest = unfold(residual(record, fit));
  const spectrum = residualSpectrum(rest);
  const amplitude = Math.hypot(fit.cosine[0] ?? 0, fit.sine[0] ?? 0);
  return { fit, cycles, amplitude, residual: rest, spectrum, near: densityNear(spectrum, cycles, cycles) };
}

/**
 * A fundamental stands clear when its line exceeds the mean of the residual's lines around it further than the
 * strongest line of noise would. The mean, unlike the median, also counts a slope that rises on one side.
 */
function standsClear({ amplitude, residual: rest, spectrum, near }: Omit<FittedRecord, 'slowChange'>) {
  const mean = sumOf(densitiesAt(spectrum, near.lines)) / Math.max(1, near.lines.length);
  const power = (amplitude * amplitude * rest.length) / 4;
  const threshold = powerThreshold(falseFundamental / ((trialsPerLine * rest.length) / 2), near.freedom);
  return power > threshold * Math.max(mean, near.density);
}
