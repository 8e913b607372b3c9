/**
 * A record folded about its middle. With time counted from the middle, cosines meet only the even part of the
 * record and sines only the odd part, so every sum over N samples runs over N/2 and the normal equations of a
 * harmonic fit fall apart into a cosine block and a sine block.
 *
 * `even[i]` is x(+m) + x(−m) and `odd[i]` is x(+m) − x(−m) at m = i + offset; the middle sample of an odd length
 * stands once, in `even[0]`.
 */
export interface FoldedRecord {
  length: number;
  /** 0 for an odd number of samples, 0.5 for an even one. */
  offset: number;
  even: Float64Array;
  odd: Float64Array;
}

/** Folds a record about its middle. */
export function fold(values: Float64Array): FoldedRecord {
  const length = values.length;
  const half = (length + 1) >> 1;
  const first = length >> 1;
  const even = new Float64Array(half);
  const odd = new Float64Array(half);
  for (let i = 0; i < half; i++) {
    const after = values[first + i] ?? 0;
    const before = values[half - 1 - i] ?? 0;
    even[i] = after + before;
    odd[i] = after - before;
  }
  if (length % 2 === 1) even[0] = values[first] ?? 0;
  return { length, offset: length % 2 === 1 ? 0 : 0.5, even, odd };
}

/** Lays a folded record out in time again. */
export function unfold({ length, even, odd }: FoldedRecord): Float64Array {
  const values = new Float64Array(length);
  const half = even.length;
  const first = length >> 1;
  for (let i = half - 1; i >= 0; i--) {
    const sum = even[i] ?? 0;
    const difference = odd[i] ?? 0;
    values[half - 1 - i] = (sum - difference) / 2;
    values[first + i] = (sum + difference) / 2;
  }
  if (length % 2 === 1) values[first] = even[0] ?? 0;
  return values;
}

/** Sum of the squares of a record's samples. */
export function energy({ length, even, odd }: FoldedRecord): number {
  let sum = length % 2 === 1 ? (even[0] ?? 0) ** 2 : 0;
  for (let i = 0; i < even.length; i++) {
    const inEven = even[i] ?? 0;
    const inOdd = odd[i] ?? 0;
    sum += inEven * inEven + inOdd * inOdd;
  }
  return sum / 2;
}
