import { z } from 'zod';
import { distinctIds, line, slug } from './fields.ts';

/** Captures of one thing, taken anew each time. */
const repeat = z.strictObject({
  /** Name in the log: `tone-1w-again`. */
  id: slug,
  /** `1 kHz at 1 W, connected five times`. */
  title: line,
  /** Two or more captures of this log, alike in all that is declared: `[tone-1w-a, tone-1w-b, tone-1w-c]`. */
  of: z.array(line).min(2).max(100),
  /** What was done anew between them: `leads off, load and generator connected again`. */
  between: line,
});

/** Lists of repeats of a log. */
export const repeatsSchema = z.array(repeat).superRefine(distinctIds).default([]);

export type RepeatData = z.infer<typeof repeat>;
