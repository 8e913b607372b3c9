/** Values of a column. */
export type Kept = ArrayLike<number>;

const digits = 6;

/** Values to the six digits that are published of a curve: more than any instrument's, fewer than a number's. */
export const keptDigits = (values: Kept): number[] =>
  Array.from(values, (value) => Number(value.toPrecision(digits)));
