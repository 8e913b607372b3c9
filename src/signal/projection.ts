import type { FoldedRecord } from './fold.ts';

/** Sums of a record against one frequency, time m counted from its middle. */
export interface Projection {
  /** Σ x·cos(angle·m) */
  cosine: number;
  /** Σ x·sin(angle·m) */
  sine: number;
  /** Σ m·x·cos(angle·m) */
  cosineMoment: number;
  /** Σ m·x·sin(angle·m) */
  sineMoment: number;
}

/** Samples between two exact evaluations of the rotating pair: bounds the growth of its rounding error. */
export const rotationRun = 512;

/**
 * Projects a folded record on one frequency, in radians per sample, in one pass.
 * @source rotation of the pair (cos, sin) by the addition theorems, started afresh every `rotationRun` samples.
 */
export function project(record: FoldedRecord, angle: number): Projection {
  const { even, odd, offset } = record;
  const stepCosine = Math.cos(angle);
  const stepSine = Math.sin(angle);
  let cosine = 0;
  let sine = 0;
  let cosineMoment = 0;
  let sineMoment = 0;
  for (let start = 0; start < even.length; start += rotationRun) {
    const end = Math.min(start + rotationRun, even.length);
    let c = Math.cos(angle * (start + offset));
    let s = Math.sin(angle * (start + offset));
    for (let i = start; i < end; i++) {
      const m = i + offset;
      const inEven = even[i] ?? 0;
      const inOdd = odd[i] ?? 0;
      cosine += inEven * c;
      sineMoment += m * inEven * s;
      sine += inOdd * s;
      cosineMoment += m * inOdd * c;
      const next = c * stepCosine - s * stepSine;
      s = s * stepCosine + c * stepSine;
      c = next;
    }
  }
  return { cosine, sine, cosineMoment, sineMoment };
}
