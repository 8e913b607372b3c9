import { cosineWindow, windowValues } from '../noise/windows.ts';
import { sumOf } from '../statistics/statistics.ts';
import { strongestLowCycles } from './low-cycle-search.ts';
import { remembered } from './remembered.ts';
import { paddedPowerOf, transformSize } from './transform.ts';

/** Side lobes 92 dB down keep strong harmonics, hum and drift from hiding a line or posing as one. */
export const searchWindow = cosineWindow('Blackman-Harris 92 dB');
/** Half the width of the search window's main lobe, in cycles per record. */
const mainLobe = 4;
/** Lines below this stand so close to zero frequency that they overlap their own image. */
const lowCycles = 2 * mainLobe;

/** The search window's values and their sum for records of one length. */
const windowOf = remembered((length: number) => {
  const values = windowValues(searchWindow, length);
  return { values, sum: sumOf(values) };
}, 2);

/**
 * Where the record's strongest lines stand, strongest first, in cycles per record: peaks of the windowed spectrum
 * of the record less its straight trend, interpolated; lines below eight cycles by least squares instead. Each line is
 * looked for when it is asked for.
 */
export function* locateLines(values: Float64Array, most: number): Generator<number> {
  const size = transformSize(values.length);
  const power = paddedPowerOf((into) => writeWindowed(values, into), values.length, size);
  const linesPerCycle = size / values.length;
  for (const line of peaks(power, linesPerCycle, most)) {
    const found = line / linesPerCycle;
    yield found < lowCycles ? strongestLowCycles(values).cycles : found;
  }
}

/** The record less its straight trend, times the window, and then less what would be left in the line at zero. */
function writeWindowed(values: Float64Array, product: Float64Array): void {
  const { mean, slope, middle } = straightTrend(values);
  const window = windowOf(values.length);
  for (let n = 0; n < product.length; n++) {
    product[n] = ((values[n] ?? 0) - mean - slope * (n - middle)) * (window.values[n] ?? 0);
  }
  const constant = sumOf(product) / window.sum;
  for (let n = 0; n < product.length; n++)
    product[n] = (product[n] ?? 0) - constant * (window.values[n] ?? 0);
}

/** Least-squares line through a record: mean, and slope per sample about the middle. */
export function straightTrend(values: Float64Array): { mean: number; slope: number; middle: number } {
  const { length } = values;
  const middle = (length - 1) / 2;
  let sum = 0;
  let moment = 0;
  for (let n = 0; n < length; n++) {
    const value = values[n] ?? 0;
    sum += value;
    moment += (n - middle) * value;
  }
  const square = (length * (length * length - 1)) / 12;
  return { mean: sum / length, slope: moment / square, middle };
}

/** The highest local maxima, none within another's main lobe, as interpolated line numbers. */
function* peaks(power: Float64Array, linesPerCycle: number, most: number): Generator<number> {
  const found: number[] = [];
  const apart = mainLobe * linesPerCycle;
  while (found.length < most) {
    const line = highestPeak(power, (at) => found.some((other) => Math.abs(other - at) < apart));
    if (line === null) return;
    found.push(line);
    yield line + peakOffset(power, line);
  }
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
