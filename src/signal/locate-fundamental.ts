import { fold } from './fold.ts';
import { strongestLowCycles } from './low-cycle-search.ts';
import { sumOf } from './statistics.ts';
import { paddedPower, transformSize } from './transform.ts';
import { cosineWindow, windowValues } from './windows.ts';

/** Side lobes 92 dB down keep strong harmonics, hum and drift from hiding a line or posing as one. */
export const searchWindow = cosineWindow('Blackman-Harris 92 dB');
/** Half the width of the search window's main lobe, in cycles per record. */
const mainLobe = 4;
/** Lines below this stand so close to zero frequency that they overlap their own image. */
const lowCycles = 2 * mainLobe;

/** The search window's values for records of one length; channels of a record share them. */
export function searchWindowValues(length: number): Float64Array {
  return windowValues(searchWindow, length);
}

/**
 * Where the record's strongest lines stand, strongest first, in cycles per record: peaks of the windowed spectrum
 * of the record less its straight trend, interpolated; lines below eight cycles by least squares instead.
 */
export function locateLines(values: Float64Array, window: Float64Array, most = 3): number[] {
  const size = transformSize(values.length);
  const power = paddedPower(windowed(values, window), size);
  const linesPerCycle = size / values.length;
  const cycles = peaks(power, linesPerCycle, most).map((line) => line / linesPerCycle);
  return cycles.map((found) => (found < lowCycles ? strongestLowCycles(values).cycles : found));
}

/** The record less its straight trend, times the window, and then less what would be left in the line at zero. */
function windowed(values: Float64Array, window: Float64Array): Float64Array {
  const { mean, slope, middle } = straightTrend(values);
  const product = new Float64Array(values.length);
  for (let n = 0; n < product.length; n++) {
    product[n] = ((values[n] ?? 0) - mean - slope * (n - middle)) * (window[n] ?? 0);
  }
  const constant = sumOf(product) / sumOf(window);
  for (let n = 0; n < product.length; n++) product[n] = (product[n] ?? 0) - constant * (window[n] ?? 0);
  return product;
}

/** Least-squares line through a record: mean, and slope per sample about the middle. */
export function straightTrend(values: Float64Array): { mean: number; slope: number; middle: number } {
  const { length, even, odd, offset } = fold(values);
  let sum = 0;
  let moment = 0;
  for (let i = 0; i < even.length; i++) {
    sum += even[i] ?? 0;
    moment += (i + offset) * (odd[i] ?? 0);
  }
  const square = (length * (length * length - 1)) / 12;
  return { mean: sum / length, slope: moment / square, middle: (length - 1) / 2 };
}

/** The highest local maxima, none within another's main lobe, as interpolated line numbers. */
function peaks(power: Float64Array, linesPerCycle: number, most: number): number[] {
  const found: number[] = [];
  const apart = mainLobe * linesPerCycle;
  while (found.length < most) {
    const line = highestPeak(power, (at) => found.some((other) => Math.abs(other - at) < apart));
    if (line === null) return found;
    found.push(line);
  }
  return found.map((line) => line + peakOffset(power, line));
}

function highestPeak(power: Float64Array, taken: (line: number) => boolean): number | null {
  let best: number | null = null;
  let highest = 0;
  for (let line = 1; line < power.length - 1; line++) {
    const here = power[line] ?? 0;
    if (here <= highest || here < (power[line - 1] ?? 0) || here < (power[line + 1] ?? 0)) continue;
    if (taken(line)) continue;
    best = line;
    highest = here;
  }
  return best;
}

/**
 * How far the true maximum stands from its highest line, in lines.
 * @source parabola through the logarithms of three lines, exact for a Gaussian main lobe.
 */
function peakOffset(power: Float64Array, line: number): number {
  const tiny = Number.MIN_VALUE;
  const before = Math.log(Math.max(power[line - 1] ?? 0, tiny));
  const here = Math.log(Math.max(power[line] ?? 0, tiny));
  const after = Math.log(Math.max(power[line + 1] ?? 0, tiny));
  const bend = before - 2 * here + after;
  return bend < 0 ? (before - after) / (2 * bend) : 0;
}
