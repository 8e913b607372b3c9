import { z } from 'zod';
import { anyQuantity } from './any-quantity.ts';
import { line, wholeNumber } from './fields.ts';

const size = anyQuantity.refine(({ value }) => value > 0, {
  error: 'A scatter above zero is expected here.',
  params: { rule: 'number', hint: 'Write its size, for example 3 % of the value, or 0.05 dB.' },
});

const keys = z.strictObject({
  /** Ids of figures; `harmonics` stands for every single one: `[ thd, harmonics ]`. */
  figures: z.array(line).min(1),
  /** Captures of this log that it holds for; left out, all: `[ tone-1w ]`. */
  of: z.array(line).min(1).optional(),
  /** Standard deviation of one capture, `3 %` of its value or `0.05 dB`; this or interval:. */
  deviation: size.optional(),
  /** Half of the 95 % interval of one capture, by Student's t, in the place of deviation: `8 %`. */
  interval: size.optional(),
  /** Captures that it was found from: `6`. */
  captures: wholeNumber(2, 10_000),
  /** Which these were: `Tern 1, 20 January, all leads taken off six times`. */
  from: line,
});

/** A scatter with one size, and what that size is. */
const repeatability = keys.transform(({ deviation, interval, ...rest }, context) => {
  if (deviation && !interval) return { ...rest, stated: 'standard deviation' as const, size: deviation };
  if (interval && !deviation) return { ...rest, stated: '95 % interval' as const, size: interval };
  context.addIssue({
    code: 'custom',
    path: [interval ? 'interval' : 'figures'],
    message: 'A declared repeatability has either deviation: or interval:, and one of them only.',
    params: {
      rule: 'repeatability',
      hint: 'Write deviation: for a standard deviation, or interval: for half of a 95 % interval.',
    },
  });
  return z.NEVER;
});

/** Declared repeatabilities of a log. */
export const repeatabilitySchema = z.array(repeatability).default([]);

export type RepeatabilityData = z.infer<typeof repeatability>;
