import { fitRecord } from '../fit/fit-record.ts';
import { remainderOf } from '../fit/remainder.ts';
import { firstNotFinite, scaled } from '../fit/scaled.ts';
import { paddedPower } from '../fit/transform.ts';
import { isConstant, squaresOf } from '../statistics/statistics.ts';
import type { Channel } from '../types.ts';
import { cosineWindow, type WindowName, windowValues } from './windows.ts';

/** Noise density for display, one value for each line above zero frequency. */
export interface NoiseDensity {
  frequencyHz: Float64Array;
  /** rms in a band of one hertz: unit of the channel over the root of hertz. */
  density: Float64Array;
  window: WindowName;
  /** Samples in each segment. */
  segment: number;
  /** Share of a segment that the next one takes up again. */
  overlap: number;
  /** Segments averaged. */
  averages: number;
  /** Equivalent noise bandwidth, hertz. */
  enbwHz: number;
}

export interface NoiseDensityOptions {
  /** Highest harmonic order taken away first (default 10). */
  harmonics?: number;
}

const windowName: WindowName = 'Hann';
const overlap = 0.5;
/** Fewest segments that fit into a record side by side. */
const fewestSegments = 4;
const shortest = 64;
/** Samples that a record needs for a noise density. */
export const fewestDensitySamples = fewestSegments * shortest;
const longest = 2 ** 17;

/**
 * Noise density of a channel of any length, for display: the power spectra of half-overlapping segments averaged, after
 * the fit of the summary has taken away constant, fundamental and harmonics; hum stays in it. White noise of standard
 * deviation σ reads σ·√(2/rate). Null for samples that are not finite, without a rate, or too few for four segments.
 *
 * @source averaged overlapping segments: P. D. Welch, IEEE Trans. Audio Electroacoust. 15:70 (1967), from memory;
 * density 2·|X|²/(rate·Σw²): G. Heinzel, A. Rüdiger, R. Schilling, "Spectrum and spectral density estimation by the
 * DFT" (2002), from memory.
 */
export function noiseDensity(
  { values: samples }: Channel,
  rateHz: number,
  { harmonics = 10 }: NoiseDensityOptions = {},
): NoiseDensity | null {
  const segment = segmentFor(samples.length);
  const usable = rateHz > 0 && Number.isFinite(rateHz) && firstNotFinite(samples) === -1;
  if (!usable || segment < shortest) return null;
  const { values, scale } = scaled(samples);
  const rest = isConstant(values)
    ? new Float64Array(values.length)
    : remainderOf(values, fitRecord(values, harmonics).fitted ?? null).values;
  const window = windowValues(cosineWindow(windowName), segment);
  const { power, averages } = averaged(rest, window);
  const perHertz = (2 * segment) / (rateHz * squaresOf(window));
  const lines = power.subarray(1, segment / 2);
  return {
    frequencyHz: lines.map((_, i) => ((i + 1) * rateHz) / segment),
    density: lines.map((value) => scale * Math.sqrt(value * perHertz)),
    window: windowName,
    ...{ segment, overlap, averages },
    enbwHz: (rateHz * cosineWindow(windowName).enbwBins) / segment,
  };
}

/** The largest power of two that leaves the fewest segments. */
function segmentFor(rows: number): number {
  return Math.min(longest, 2 ** Math.floor(Math.log2(Math.max(1, rows / fewestSegments))));
}

/** Mean of |X|²/N over the segments. */
function averaged(values: Float64Array, window: Float64Array): { power: Float64Array; averages: number } {
  const { length } = window;
  const step = length * (1 - overlap);
  const averages = Math.floor((values.length - length) / step) + 1;
  const total = new Float64Array(length / 2 + 1);
  for (let start = 0; start + length <= values.length; start += step) {
    const power = paddedPower(
      window.map((weight, n) => weight * (values[start + n] ?? 0)),
      length,
    );
    for (let line = 0; line < total.length; line++) total[line] = (total[line] ?? 0) + (power[line] ?? 0);
  }
  return { power: total.map((sum) => sum / averages), averages };
}
