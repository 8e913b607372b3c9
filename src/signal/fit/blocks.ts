/**
 * A record in blocks, each seen from its own middle. Against a line exp(i·angle·m) a block needs only the line's
 * values about that middle, the same table for every block, and one turn by the phase that the line has there. About
 * the middle a cosine meets only the even part of the block and a sine only the odd part, which halves tables and work.
 *
 * @source addition theorems of cosine and sine.
 */
export const blockLength = 128;
/** Entry i of half a block stands i + ½ samples from the block's middle. */
export const halfBlock = blockLength / 2;
/** Blocks between two exact evaluations of the phases: bounds the growth of their rounding error. */
const exactEvery = 16;

/** Values of some lines within a block and at its middle. */
export interface LineTables {
  /** Radians per sample. */
  angles: readonly number[];
  /** Half a block for each line, one line after the other; a line of zeros makes their number even. */
  cosine: Float64Array;
  sine: Float64Array;
  /** Each line's turn from one block to the next. */
  stepCosine: readonly number[];
  stepSine: readonly number[];
  /** Each line at the middle of the block last turned to. */
  turnCosine: Float64Array;
  turnSine: Float64Array;
}

/** Tables of lines at some angles, turned to no block yet. */
export function lineTables(angles: readonly number[]): LineTables {
  const lines = angles.length + (angles.length % 2);
  const cosine = new Float64Array(lines * halfBlock);
  const sine = new Float64Array(lines * halfBlock);
  for (const [line, angle] of angles.entries()) {
    for (let i = 0; i < halfBlock; i++) {
      cosine[line * halfBlock + i] = Math.cos(angle * (i + 0.5));
      sine[line * halfBlock + i] = Math.sin(angle * (i + 0.5));
    }
  }
  return {
    ...{ angles, cosine, sine },
    stepCosine: angles.map((angle) => Math.cos(angle * blockLength)),
    stepSine: angles.map((angle) => Math.sin(angle * blockLength)),
    turnCosine: new Float64Array(lines),
    turnSine: new Float64Array(lines),
  };
}

/** Number of blocks of a record; the last may lack samples. */
export function blocksOf(length: number): number {
  return Math.ceil(length / blockLength);
}

/** Time of a block's middle in samples, counted from the middle of a record of `length` samples. */
export function blockTime(block: number, length: number): number {
  return block * blockLength + (blockLength - length) / 2;
}

/** Turns the lines to a block of a record of `length` samples; blocks follow one another from the first. */
export function turnTo(block: number, length: number, tables: LineTables): void {
  const { angles, turnCosine, turnSine } = tables;
  const time = blockTime(block, length);
  for (let line = 0; line < angles.length; line++) {
    if (block % exactEvery !== 0) {
      turnOn(line, tables);
      continue;
    }
    const phase = (angles[line] ?? 0) * time;
    turnCosine[line] = Math.cos(phase);
    turnSine[line] = Math.sin(phase);
  }
}

/** Turns a line by one block. */
function turnOn(line: number, { stepCosine, stepSine, turnCosine, turnSine }: LineTables): void {
  const c = turnCosine[line] ?? 0;
  const s = turnSine[line] ?? 0;
  turnCosine[line] = c * (stepCosine[line] ?? 0) - s * (stepSine[line] ?? 0);
  turnSine[line] = s * (stepCosine[line] ?? 0) + c * (stepSine[line] ?? 0);
}
