import { type Finding, waveformMessages } from '../messages.ts';
import {
  densitiesAt,
  densityNear,
  type LocalDensity,
  type ResidualSpectrum,
  residualSpectrum,
} from '../noise/residual-density.ts';
import { powerThreshold } from '../record/detection.ts';
import { largestOf, sumOf } from '../statistics/statistics.ts';
import { fitHarmonics, type HarmonicFit } from './harmonic-fit.ts';
import { locateLines } from './locate-fundamental.ts';
import { strongestLowCycles } from './low-cycle-search.ts';
import { residual } from './residual.ts';

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
export const fewestCycles = 1.95;
/** Share of the record's variations that a sine of too few cycles must account for to be named as the reason. */
const mostly = 0.5;
/** Probability that the strongest line of pure noise passes for a fundamental. */
const falseFundamental = 1e-3;
/** A peak between lines of the search counts as one and a half independent trials for each line. */
export const trialsPerLine = 1.5;

/** Steps of the fundamental alone, from a line of the search to where the harmonics may join. */
const startSteps = 3;
/** Strongest lines that are tried, one after the other. */
const mostLines = 3;

/** How far a line must stand above everything else to need no search. */
const clearlyStrongest = 2;

/**
 * Finds the fundamental of a record and fits it jointly with its harmonics up to `orders` (fewer where half the
 * sampling rate comes first). Where the line at `expected` cycles per record proves the strongest by far, nothing is
 * searched for.
 */
export function fitRecord(values: Float64Array, orders: number, expected: number | null = null): RecordFit {
  const known = expected === null ? null : fitFrom(values, expected, orders);
  if (known !== null && isStrongest(known)) return { fitted: { ...known, slowChange: false } };
  let slowChange = false;
  for (const line of locateLines(values, mostLines)) {
    const fitted = fitLine(values, line, orders);
    if (fitted !== null) return { fitted: { ...fitted, slowChange } };
    slowChange ||= isSlow(line);
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
  values: Float64Array,
  line: number,
  orders: number,
): Omit<FittedRecord, 'slowChange'> | null {
  const { length } = values;
  const toAngle = (2 * Math.PI) / length;
  const sine = isUsable(line, length)
    ? fitHarmonics(values, { angle: line * toAngle, orders: 1, iterations: startSteps })
    : null;
  const start = sine === null ? 0 : sine.angle / toAngle;
  return fitFrom(values, start, orders);
}

/** Fits a line and its harmonics together from a place next to the line's own. */
function fitFrom(
  values: Float64Array,
  start: number,
  orders: number,
): Omit<FittedRecord, 'slowChange'> | null {
  const { length } = values;
  const toAngle = (2 * Math.PI) / length;
  if (!isUsable(start, length)) return null;
  const counted = Math.max(1, Math.min(orders, ordersBelowHalfRate(start, length)));
  const fit = fitHarmonics(values, { angle: start * toAngle, orders: counted });
  if (fit === null) return null;
  const cycles = fit.angle / toAngle;
  const fitted = takeApart(values, fit, cycles);
  return isUsable(cycles, length) && standsClear(fitted) ? fitted : null;
}

function isStrongest({ fit, amplitude, spectrum, residual: rest }: Omit<FittedRecord, 'slowChange'>) {
  const harmonics = fit.cosine.slice(1).map((cosine, i) => Math.hypot(cosine, fit.sine[i + 1] ?? 0));
  const left = 2 * Math.sqrt(largestOf(spectrum.fine) / rest.length);
  return amplitude > clearlyStrongest * Math.max(left, ...harmonics);
}

/** Lines within one cycle per record of half the sampling rate cannot be told from their image. */
function isUsable(cycles: number, length: number): boolean {
  return cycles >= fewestCycles && cycles <= length / 2 - 1;
}

/** The highest order whose line is usable. */
export function ordersBelowHalfRate(cycles: number, length: number): number {
  return Math.floor((length / 2 - 1) / cycles);
}

function takeApart(values: Float64Array, fit: HarmonicFit, cycles: number): Omit<FittedRecord, 'slowChange'> {
  const rest = residual(values, fit);
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
