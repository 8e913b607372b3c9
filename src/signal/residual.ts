import type { FoldedRecord } from './fold.ts';
import type { HarmonicFit } from './harmonic-fit.ts';
import { rotationRun } from './projection.ts';

/** A sine as the fits give it; its time counts from the record's middle. */
export interface Line {
  /** Radians per sample. */
  angle: number;
  cosine: number;
  sine: number;
}

/** What is left of a record when the fitted constant and harmonics are taken away. */
export function residual(record: FoldedRecord, fit: HarmonicFit): FoldedRecord {
  const lines = fit.cosine.map((cosine, i) => ({
    angle: fit.angle * (i + 1),
    cosine,
    sine: fit.sine[i] ?? 0,
  }));
  return withoutLines(record, fit.constant, lines);
}

/** What is left of a record when a constant and some lines are taken away. */
export function withoutLines(record: FoldedRecord, constant: number, lines: readonly Line[]): FoldedRecord {
  const even = record.even.slice();
  for (let i = 0; i < even.length; i++) even[i] = (even[i] ?? 0) - 2 * constant;
  const odd = record.odd.slice();
  const rest = { ...record, even, odd };
  for (const line of lines) subtract(rest, line);
  if (record.length % 2 === 1) even[0] = middle(record, constant, lines);
  return rest;
}

/** The middle sample of an odd length stands once in the folded record, every other pair twice. */
function middle(record: FoldedRecord, constant: number, lines: readonly Line[]): number {
  return lines.reduce((rest, { cosine }) => rest - cosine, (record.even[0] ?? 0) - constant);
}

function subtract({ even, odd, offset }: FoldedRecord, { angle, cosine, sine }: Line): void {
  const [twiceCosine, twiceSine] = [2 * cosine, 2 * sine];
  const stepCosine = Math.cos(angle);
  const stepSine = Math.sin(angle);
  for (let start = 0; start < even.length; start += rotationRun) {
    const end = Math.min(start + rotationRun, even.length);
    let c = Math.cos(angle * (start + offset));
    let s = Math.sin(angle * (start + offset));
    for (let i = start; i < end; i++) {
      even[i] = (even[i] ?? 0) - twiceCosine * c;
      odd[i] = (odd[i] ?? 0) - twiceSine * s;
      const next = c * stepCosine - s * stepSine;
      s = s * stepCosine + c * stepSine;
      c = next;
    }
  }
}
