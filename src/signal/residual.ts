import { blockLength, blocksOf, halfBlock, type LineTables, lineTables, turnTo } from './blocks.ts';
import type { HarmonicFit } from './harmonic-fit.ts';

/** A sine as the fits give it; its time counts from the record's middle. */
export interface Line {
  /** Radians per sample. */
  angle: number;
  cosine: number;
  sine: number;
}

/** What is left of a record when the fitted constant and harmonics are taken away. */
export function residual(values: Float64Array, fit: HarmonicFit): Float64Array {
  const lines = fit.cosine.map((cosine, i) => ({
    angle: fit.angle * (i + 1),
    cosine,
    sine: fit.sine[i] ?? 0,
  }));
  return withoutLines(values, fit.constant, lines);
}

/** What is left of a record when a constant and some lines are taken away. */
export function withoutLines(values: Float64Array, constant: number, lines: readonly Line[]): Float64Array {
  const tables = lineTables(lines.map(({ angle }) => angle));
  const even = new Float64Array(halfBlock);
  const odd = new Float64Array(halfBlock);
  const rest = new Float64Array(values.length);
  for (let index = 0; index < blocksOf(values.length); index++) {
    turnTo(index, values.length, tables);
    even.fill(constant);
    odd.fill(0);
    addLines(tables, lines, even, odd);
    takeAway(values, index * blockLength + halfBlock, { even, odd }, rest);
  }
  return rest;
}

/** Takes a block's two parts off the values about its middle; nothing is stored beyond the last of them. */
function takeAway(
  values: Float64Array,
  middle: number,
  { even, odd }: { even: Float64Array; odd: Float64Array },
  rest: Float64Array,
): void {
  const after = Math.min(halfBlock, rest.length - middle);
  for (let i = 0; i < after; i++) {
    rest[middle + i] = (values[middle + i] ?? 0) - ((even[i] ?? 0) + (odd[i] ?? 0));
  }
  for (let i = Math.max(0, middle - rest.length); i < halfBlock; i++) {
    rest[middle - 1 - i] = (values[middle - 1 - i] ?? 0) - ((even[i] ?? 0) - (odd[i] ?? 0));
  }
}

/** Adds the lines to the even and the odd part of the block that they are turned to, two lines at a time. */
function addLines(tables: LineTables, lines: readonly Line[], even: Float64Array, odd: Float64Array): void {
  const { cosine, sine } = tables;
  for (let line = 0; line < lines.length; line += 2) {
    const one = turned(lines[line], tables, line);
    const two = turned(lines[line + 1], tables, line + 1);
    const first = line * halfBlock;
    const second = first + halfBlock;
    for (let i = 0; i < halfBlock; i++) {
      even[i] = (even[i] ?? 0) + one.even * (cosine[first + i] ?? 0) + two.even * (cosine[second + i] ?? 0);
      odd[i] = (odd[i] ?? 0) + one.odd * (sine[first + i] ?? 0) + two.odd * (sine[second + i] ?? 0);
    }
  }
}

/** Amplitudes of a line's two parts about the block's middle; those of no line are 0. */
function turned(line: Line | undefined, { turnCosine, turnSine }: LineTables, index: number) {
  if (line === undefined) return { even: 0, odd: 0 };
  const c = turnCosine[index] ?? 0;
  const s = turnSine[index] ?? 0;
  return { even: line.cosine * c + line.sine * s, odd: line.sine * c - line.cosine * s };
}
