import { extremesOf, sumOf } from '../statistics/statistics.ts';

/** What clipping is told from. */
export interface ClippingOptions {
  values: Float64Array;
  /** Step between the record's levels; null where it is too fine to find. */
  step: number | null;
  /** Standard deviation of the noise. */
  noise: number;
  /** Cycles of the fundamental in the record. */
  cycles: number;
}

/** Fewest consecutive samples at an extreme that can be a flat top. */
const shortestTop = 3;
/** Share of the cycles that must show a flat top. */
const commonTops = 0.1;
const fewestTops = 2;
const finest = 1e-6;

/**
 * True where the record's tops or bottoms are flat. The samples near an extreme are sorted into levels: the extreme
 * one and the three below it. A smooth top, being a parabola near its peak, stays at its extreme level no longer than
 * on the three below together, plus at most two samples; this holds whatever the amplitude, the sampling and the
 * position of the peak between two levels, so that the repeated codes of a clean 8-bit sine do not count. A top is
 * flat when it stays there half as long again; the record clips when a tenth of its cycles, and at least two, are flat.
 *
 * The levels are the record's own steps, and once more steps widened by the noise; these must also be level from end to
 * end, which the sloping tops of a filtered square wave are not.
 */
export function isClipped(options: ClippingOptions): boolean {
  const { values } = options;
  const { lowest, highest } = extremesOf(values);
  const mean = sumOf(values) / values.length;
  const tops = depthsOf(options, 1, highest, highest - mean);
  const bottoms = depthsOf(options, -1, -lowest, mean - lowest);
  const { above, below } = stretchesBeyond(values, tops.blurred.flank, -bottoms.blurred.flank);
  return hasFlatTops(options, tops, above) || hasFlatTops(options, bottoms, below);
}

/** How deep the levels at one side of a record reach: as they stand, and widened by the noise. */
interface Depths {
  /** 1 for the tops and −1 for the bottoms, which are the tops of the record turned over. */
  side: 1 | -1;
  sharp: Levels;
  blurred: Levels;
}

function depthsOf({ step, noise }: ClippingOptions, side: 1 | -1, highest: number, swing: number): Depths {
  const width = step === null ? finest * swing : step / 2;
  const sharp = levelsOf(highest, width, step);
  return { side, sharp, blurred: levelsOf(highest, width + 6 * noise, step) };
}

function hasFlatTops(
  { values, step, noise, cycles }: ClippingOptions,
  { side, sharp, blurred }: Depths,
  near: readonly number[],
): boolean {
  const needed = Math.max(fewestTops, commonTops * cycles);
  const codes = capsOf(values, side, sharp, near).filter(isFlat);
  if (codes.length >= needed) return true;
  const wide = capsOf(values, side, blurred, near).filter(isFlat);
  return wide.filter((cap) => isLevel(values, cap, (step ?? 0) / 2, noise)).length >= needed;
}

/** Lower bounds of the extreme level and of the three below it. */
interface Levels {
  top: number;
  flank: number;
}

/** The true peak may lie half a step above the highest code; the flank reaches four times as deep below it. */
function levelsOf(highest: number, width: number, step: number | null): Levels {
  return { top: highest - width, flank: highest - 4 * width - 1.5 * (step ?? 0) };
}

/** A stretch of samples within the extreme level and the three below it. */
interface Cap {
  /** Samples at the extreme level, and at the three below. */
  top: number;
  flank: number;
  /** Longest run at the extreme level, and where it ends (exclusive). */
  run: number;
  runEnd: number;
}

function isFlat({ top, flank, run }: Cap): boolean {
  return run >= shortestTop && top > 1.5 * flank + 2.5;
}

/**
 * First and last positions, two by two, of the stretches of samples that are not below an upper level, and of those that
 * are not above a lower one.
 */
function stretchesBeyond(values: Float64Array, upper: number, lower: number) {
  const [above, below]: [number[], number[]] = [[], []];
  for (let n = 0; n < values.length; n++) {
    const value = values[n] ?? 0;
    if (value >= upper) addTo(above, n);
    if (value <= lower) addTo(below, n);
  }
  return { above, below };
}

/** Lengthens the last stretch by the position behind it, or begins another there. */
function addTo(stretches: number[], position: number): void {
  const last = stretches.length - 1;
  if (stretches[last] === position - 1) stretches[last] = position;
  else stretches.push(position, position);
}

/** The caps within some stretches; none extends beyond its stretch. */
function capsOf(values: Float64Array, side: 1 | -1, levels: Levels, stretches: readonly number[]): Cap[] {
  const found: Cap[] = [];
  for (let i = 0; i < stretches.length; i += 2) {
    addCaps(found, values, side, levels, [stretches[i] ?? 0, stretches[i + 1] ?? 0]);
  }
  return found;
}

function addCaps(
  found: Cap[],
  values: Float64Array,
  side: 1 | -1,
  levels: Levels,
  [first, last]: [number, number],
): void {
  let cap: Cap | null = null;
  let run = 0;
  for (let n = first; n <= last; n++) {
    const value = side * (values[n] ?? 0);
    if (value < levels.flank) {
      cap = null;
      run = 0;
      continue;
    }
    if (cap === null) {
      cap = { top: 0, flank: 0, run: 0, runEnd: 0 };
      found.push(cap);
    }
    run = value >= levels.top ? run + 1 : 0;
    if (run > 0) cap.top++;
    else cap.flank++;
    if (run > cap.run) {
      cap.run = run;
      cap.runEnd = n + 1;
    }
  }
}

/** True where the means of the run's three thirds agree within noise and half a step. */
function isLevel(values: Float64Array, { run, runEnd }: Cap, halfStep: number, noise: number): boolean {
  const third = Math.floor(run / 3);
  const start = runEnd - run;
  const means = [0, 1, 2].map((i) => meanOf(values.subarray(start + i * third, start + (i + 1) * third)));
  const spread = Math.max(...means) - Math.min(...means);
  return spread <= halfStep + (4 * noise) / Math.sqrt(third);
}

const meanOf = (values: Float64Array) => sumOf(values) / values.length;
