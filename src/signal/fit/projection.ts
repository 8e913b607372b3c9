import {
  blockLength,
  blocksOf,
  blockTime,
  halfBlock,
  type LineTables,
  lineTables,
  turnTo,
} from './blocks.ts';

/** Sums of a record against one line, time m counted from the record's middle. */
export interface Projection {
  /** Σ x·cos(angle·m) */
  cosine: number;
  /** Σ x·sin(angle·m) */
  sine: number;
}

/** The same with the sums that tell how the angle should move. */
export interface MomentProjection extends Projection {
  /** Σ m·x·cos(angle·m) */
  cosineMoment: number;
  /** Σ m·x·sin(angle·m) */
  sineMoment: number;
}

/** Projects a record on lines at some angles, in radians per sample, in one pass over it. */
export function project(values: Float64Array, angles: readonly number[]): Projection[] {
  const tables = lineTables(angles);
  const total = new Float64Array(2 * tables.turnCosine.length);
  const sums = total.slice();
  const block = halves();
  for (let index = 0; index < blocksOf(values.length); index++) {
    take(values, index, block);
    turnTo(index, values.length, tables);
    sumAgainst(tables, block.even, block.odd, sums);
    addTurned(total, tables, sums);
  }
  return angles.map((_, line) => pairAt(total, line));
}

/** Projects a record on lines at some angles with the first moments, in one pass over it. */
export function projectWithMoments(values: Float64Array, angles: readonly number[]): MomentProjection[] {
  const tables = lineTables(angles);
  const total = new Float64Array(2 * tables.turnCosine.length);
  const [totalMoments, sums, moments] = [total.slice(), total.slice(), total.slice()];
  const [block, weighted] = [halves(), halves()];
  for (let index = 0; index < blocksOf(values.length); index++) {
    take(values, index, block);
    weigh(block, weighted);
    turnTo(index, values.length, tables);
    sumAgainst(tables, block.even, block.odd, sums);
    addTurned(total, tables, sums);
    sumAgainst(tables, weighted.odd, weighted.even, moments);
    addTimes(moments, sums, blockTime(index, values.length));
    addTurned(totalMoments, tables, moments);
  }
  return angles.map((_, line) => {
    const { cosine: cosineMoment, sine: sineMoment } = pairAt(totalMoments, line);
    return { ...pairAt(total, line), cosineMoment, sineMoment };
  });
}

const pairAt = (pairs: Float64Array, line: number): Projection => ({
  cosine: pairs[2 * line] ?? 0,
  sine: pairs[2 * line + 1] ?? 0,
});

/** A block folded about its middle: x(+j) + x(−j) and x(+j) − x(−j) at j = ½, 1½, … */
interface Halves {
  even: Float64Array;
  odd: Float64Array;
}

const halves = (): Halves => ({ even: new Float64Array(halfBlock), odd: new Float64Array(halfBlock) });

/** Folds one block of a record; nothing stands beyond the record's end. */
function take(values: Float64Array, index: number, block: Halves): void {
  const start = index * blockLength;
  if (start + blockLength > values.length) {
    const last = new Float64Array(blockLength);
    last.set(values.subarray(start));
    foldAt(last, halfBlock, block);
  } else foldAt(values, start + halfBlock, block);
}

function foldAt(values: Float64Array, middle: number, { even, odd }: Halves): void {
  for (let i = 0; i < halfBlock; i++) {
    const after = values[middle + i] ?? 0;
    const before = values[middle - 1 - i] ?? 0;
    even[i] = after + before;
    odd[i] = after - before;
  }
}

/** Multiplies both parts by the time j. */
function weigh({ even, odd }: Halves, weighted: Halves): void {
  for (let i = 0; i < halfBlock; i++) {
    weighted.even[i] = (i + 0.5) * (even[i] ?? 0);
    weighted.odd[i] = (i + 0.5) * (odd[i] ?? 0);
  }
}

/** Σ withCosine·cos(angle·j) and Σ withSine·sin(angle·j) for each line, two lines at a time. */
function sumAgainst(
  { cosine, sine }: LineTables,
  withCosine: Float64Array,
  withSine: Float64Array,
  sums: Float64Array,
): void {
  for (let line = 0; 2 * line < sums.length; line += 2) {
    const first = line * halfBlock;
    const second = first + halfBlock;
    let firstCosine = 0;
    let firstSine = 0;
    let secondCosine = 0;
    let secondSine = 0;
    for (let i = 0; i < halfBlock; i++) {
      const c = withCosine[i] ?? 0;
      const s = withSine[i] ?? 0;
      firstCosine += c * (cosine[first + i] ?? 0);
      firstSine += s * (sine[first + i] ?? 0);
      secondCosine += c * (cosine[second + i] ?? 0);
      secondSine += s * (sine[second + i] ?? 0);
    }
    sums[2 * line] = firstCosine;
    sums[2 * line + 1] = firstSine;
    sums[2 * line + 2] = secondCosine;
    sums[2 * line + 3] = secondSine;
  }
}

function addTimes(into: Float64Array, sums: Float64Array, time: number): void {
  for (let i = 0; i < into.length; i++) into[i] = (into[i] ?? 0) + time * (sums[i] ?? 0);
}

/** Adds pairs of sums, turned by the phase that their lines have in the block's middle. */
function addTurned(total: Float64Array, { turnCosine, turnSine }: LineTables, sums: Float64Array): void {
  for (let line = 0; line < turnCosine.length; line++) {
    const c = turnCosine[line] ?? 0;
    const s = turnSine[line] ?? 0;
    const cosine = sums[2 * line] ?? 0;
    const sine = sums[2 * line + 1] ?? 0;
    total[2 * line] = (total[2 * line] ?? 0) + cosine * c - sine * s;
    total[2 * line + 1] = (total[2 * line + 1] ?? 0) + cosine * s + sine * c;
  }
}
