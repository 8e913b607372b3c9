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
  const [even, odd] = [new Float64Array(halfBlock), new Float64Array(halfBlock)];
  const parts = { even: tables.turnCosine.slice(), odd: tables.turnSine.slice() };
  const rest = new Float64Array(values.length);
  for (let index = 0; index < blocksOf(values.length); index++) {
    turnTo(index, values.length, tables);
    turnLines(lines, tables, parts);
    even.fill(constant);
    odd.fill(0);
    addLines(tables, parts, even, odd);
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

/** Amplitudes of the lines' two parts about a block's middle; a line that fills up their number has none. */
interface Parts {
  even: Float64Array;
  odd: Float64Array;
}

/** Finds the amplitudes of the lines' parts about the middle of the block that the tables are turned to. */
function turnLines(lines: readonly Line[], { turnCosine, turnSine }: LineTables, { even, odd }: Parts): void {
  for (let index = 0; index < lines.length; index++) {
    const { cosine, sine } = lines[index] ?? noLine;
    const c = turnCosine[index] ?? 0;
    const s = turnSine[index] ?? 0;
    even[index] = cosine * c + sine * s;
    odd[index] = sine * c - cosine * s;
  }
}

const noLine: Line = { angle: 0, cosine: 0, sine: 0 };

/** Adds the lines to the even and the odd part of a block, two lines at a time. */
function addLines({ cosine, sine }: LineTables, parts: Parts, even: Float64Array, odd: Float64Array): void {
  for (let line = 0; line < parts.even.length; line += 2) {
    const first = line * halfBlock;
    const second = first + halfBlock;
    const oneEven = parts.even[line] ?? 0;
    const oneOdd = parts.odd[line] ?? 0;
    const twoEven = parts.even[line + 1] ?? 0;
    const twoOdd = parts.odd[line + 1] ?? 0;
    for (let i = 0; i < halfBlock; i++) {
      even[i] = (even[i] ?? 0) + oneEven * (cosine[first + i] ?? 0) + twoEven * (cosine[second + i] ?? 0);
      odd[i] = (odd[i] ?? 0) + oneOdd * (sine[first + i] ?? 0) + twoOdd * (sine[second + i] ?? 0);
    }
  }
}
