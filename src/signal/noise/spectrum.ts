import { fitRecord } from '../fit/fit-record.ts';
import { firstNotFinite, scaled } from '../fit/scaled.ts';
import { paddedPower, transformSize } from '../fit/transform.ts';
import { medianOf } from '../statistics/median.ts';
import { isConstant, squaresOf, sumOf } from '../statistics/statistics.ts';
import { fitTonePair } from '../two-tone/tone-pair.ts';
import type { AmplitudeSpectrum, Channel } from '../types.ts';
import { lossBesideLine } from './scalloping.ts';
import { cosineWindow, type WindowName, windowValues } from './windows.ts';

export interface SpectrumOptions {
  /** Default Blackman-Harris 92 dB: side lobes below what 14 bits resolve, harmonics five cycles apart still apart. */
  window?: WindowName;
  /** Highest harmonic order taken away before the noise's level is read (default 10). */
  harmonics?: number;
  /** Two tones in place of a fundamental: they and their combinations are taken away instead. */
  tonesHz?: readonly [number, number];
}

/** Lines are half a cycle per record apart or less, so that a sine between two lines loses a fifth of a decibel. */
const finer = 2;
const fewestSamples = 4;

/**
 * Amplitude spectrum of a channel of any length, for display: a sine of 1 V rms reads 1 V in the line at its frequency
 * (0.2 dB less between lines). `floorRms` is the noise's rms in a line, from the local median of the spectrum that is
 * left when constant, fundamental and harmonics are taken away by the fit of the summary; without a fundamental, of
 * the spectrum itself. Samples that are not finite, too few, or without a rate give a spectrum of no lines.
 *
 * @source scaling of an amplitude spectrum and ENBW = rate·Σw²/(Σw)²: G. Heinzel, A. Rüdiger, R. Schilling, "Spectrum
 * and spectral density estimation by the DFT" (2002), from memory; median of an exponential: ln 2 times its mean.
 */
export function amplitudeSpectrum(
  { values: samples }: Channel,
  rateHz: number,
  { window: name = 'Blackman-Harris 92 dB', harmonics = 10, tonesHz }: SpectrumOptions = {},
): AmplitudeSpectrum {
  const usable = rateHz > 0 && Number.isFinite(rateHz) && firstNotFinite(samples) === -1;
  if (!usable || samples.length < fewestSamples) return { ...noLines, window: name };
  const { values, scale } = scaled(samples);
  const window = windowValues(cosineWindow(name), values.length);
  const { steady, rest } = tonesHz ? splitTones(values, rateHz, tonesHz) : split(values, harmonics);
  const size = transformSize(values.length, finer);
  const gain = sumOf(window);
  const linePower = (record: Float64Array) =>
    meanSquares(paddedPower(product(record, window), size), values.length, gain);
  const floor = localFloor(linePower(rest), (size / values.length) * cosineWindow(name).enbwBins);
  return {
    frequencyHz: floor.map((_, line) => (line * rateHz) / size),
    rms: linePower(steady).map((power) => scale * Math.sqrt(power)),
    floorRms: floor.map((power) => scale * Math.sqrt(power)),
    window: name,
    enbwHz: (rateHz * squaresOf(window)) / (gain * gain),
    scallopingDb: lossBesideLine(cosineWindow(name), values.length / size / 2),
  };
}

const noLines = {
  frequencyHz: new Float64Array(),
  rms: new Float64Array(),
  floorRms: new Float64Array(),
  enbwHz: 0,
  scallopingDb: 0,
};

/** The record without its constant, and what is left of it without the fitted harmonics as well. */
function split(values: Float64Array, harmonics: number): { steady: Float64Array; rest: Float64Array } {
  const mean = sumOf(values) / values.length;
  const { fitted } = isConstant(values) ? {} : fitRecord(values, harmonics);
  const constant = fitted?.fit.constant ?? mean;
  const steady = values.map((value) => value - constant);
  return { steady, rest: fitted?.residual ?? steady };
}

/** The same where two tones and their combinations were fitted; the record itself where they are not found again. */
function splitTones(values: Float64Array, rateHz: number, [lower, upper]: readonly [number, number]) {
  const toCycles = values.length / rateHz;
  const declared = [lower * toCycles, upper * toCycles] as const;
  const { fitted } = fitTonePair(values, declared);
  const constant = fitted?.constant ?? sumOf(values) / values.length;
  const steady = values.map((value) => value - constant);
  return { steady, rest: fitted?.residual ?? steady };
}

function product(a: Float64Array, b: Float64Array): Float64Array {
  return a.map((value, n) => value * (b[n] ?? 0));
}

/** Mean squares of sines from |X|²/N; the lines at zero and at half the rate have no mirror image. */
function meanSquares(power: Float64Array, length: number, gain: number): Float64Array {
  const last = power.length - 1;
  return power.map((value, line) => ((line === 0 || line === last ? 1 : 2) * length * value) / (gain * gain));
}

/** Fewest and most independent lines in a stretch of the floor; between these a quarter of its distance from zero. */
const shortest = 8;
const longest = 128;

/** The noise's mean square in each line: medians of stretches that widen with frequency, joined by straight lines. */
function localFloor(power: Float64Array, linesPerIndependent: number): Float64Array {
  const knots: { line: number; level: number }[] = [];
  for (let start = 0; start < power.length; ) {
    const wanted = Math.min(longest, Math.max(shortest, start / linesPerIndependent / 4));
    const end = Math.min(power.length, start + Math.ceil(wanted * linesPerIndependent));
    knots.push({ line: (start + end - 1) / 2, level: medianOf(power.subarray(start, end)) / Math.LN2 });
    start = end;
  }
  return joined(knots, power.length);
}

function joined(knots: readonly { line: number; level: number }[], length: number): Float64Array {
  const levels = new Float64Array(length);
  let next = 0;
  for (let line = 0; line < length; line++) {
    while (next < knots.length && (knots[next]?.line ?? 0) < line) next++;
    const after = knots[Math.min(next, knots.length - 1)];
    const before = knots[Math.max(0, next - 1)] ?? after;
    if (after === undefined || before === undefined) continue;
    const share = after.line === before.line ? 0 : (line - before.line) / (after.line - before.line);
    levels[line] = before.level + Math.min(1, Math.max(0, share)) * (after.level - before.level);
  }
  return levels;
}
