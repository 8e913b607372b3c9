import type { FoldedRecord } from './fold.ts';
import type { HarmonicFit } from './harmonic-fit.ts';
import { rotationRun } from './projection.ts';

/** What is left of a record when the fitted constant and harmonics are taken away. */
export function residual(record: FoldedRecord, fit: HarmonicFit): FoldedRecord {
  const even = record.even.slice();
  for (let i = 0; i < even.length; i++) even[i] = (even[i] ?? 0) - 2 * fit.constant;
  const odd = record.odd.slice();
  const rest = { ...record, even, odd };
  fit.cosine.forEach((cosine, i) => {
    subtract(rest, fit.angle * (i + 1), 2 * cosine, 2 * (fit.sine[i] ?? 0));
  });
  if (record.length % 2 === 1) even[0] = middle(record, fit);
  return rest;
}

/** The middle sample of an odd length stands once in the folded record, every other pair twice. */
function middle(record: FoldedRecord, fit: HarmonicFit): number {
  return fit.cosine.reduce((rest, cosine) => rest - cosine, (record.even[0] ?? 0) - fit.constant);
}

function subtract({ even, odd, offset }: FoldedRecord, angle: number, cosine: number, sine: number): void {
  const stepCosine = Math.cos(angle);
  const stepSine = Math.sin(angle);
  for (let start = 0; start < even.length; start += rotationRun) {
    const end = Math.min(start + rotationRun, even.length);
    let c = Math.cos(angle * (start + offset));
    let s = Math.sin(angle * (start + offset));
    for (let i = start; i < end; i++) {
      even[i] = (even[i] ?? 0) - cosine * c;
      odd[i] = (odd[i] ?? 0) - sine * s;
      const next = c * stepCosine - s * stepSine;
      s = s * stepCosine + c * stepSine;
      c = next;
    }
  }
}
