import { z } from 'zod';
import { line, positiveNumber, wholeNumber } from './fields.ts';

const part = z.strictObject({
  /** What it is: `Output transformer`. */
  part: line,
  /** `2.5 kΩ to 8 Ω`. */
  value: line.optional(),
  /** `2` (default 1). */
  quantity: positiveNumber().default(1),
  /** As the maker pays it: `85.00 EUR`. */
  price: line.optional(),
  /** As the maker writes it. */
  supplier: line.optional(),
  /** Its record: `parts/heron-output`. */
  record: line.optional(),
});

export type PartLine = z.infer<typeof part>;

/** What a version is made of: a list in the record or a file beside it. */
export const billKeys = {
  parts: z.array(part).default([]),
  /** The parts as a CSV file beside the record, in place of the list: `heron-v2-parts.csv`. */
  partsFile: line.optional(),
  /** How many are built at once: `4`. */
  batch: wholeNumber(1, 100_000).optional(),
};

/** Columns of a parts file; `part` is the only one that it must have. */
export const partColumns = part.keyof().options;
