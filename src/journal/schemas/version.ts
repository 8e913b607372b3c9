import { z } from 'zod';
import { chainSchema } from './chain.ts';
import { date, line, positiveNumber, quantity } from './fields.ts';
import { stagesSchema } from './stage.ts';
import { supplySchema } from './supply.ts';

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

/** amplifiers/<amp>/<version>.md: one version of an amplifier. */
export const versionSchema = z
  .strictObject({
    /** `Heron 2`. */
    title: line,
    date,
    /** `on the bench`, `current` or `retired`. */
    state: z.enum(['on the bench', 'current', 'retired']),
    /** The version this one grew out of: `amplifiers/heron/v1`. */
    follows: line.optional(),
    /** What changed and why, one sentence each. */
    changes: z.array(line).default([]),
    /** One sentence about the version. */
    summary: line,
    /** The load its power is rated into: `8 Ω`. */
    ratedLoad: quantity('resistance').optional(),
    /** What it is rated to deliver into that load, the reference of signal-to-noise ratios: `3 W`. */
    ratedPower: quantity('power').optional(),
    supply: supplySchema.optional(),
    stages: stagesSchema,
    chain: chainSchema.optional(),
    parts: z.array(part).default([]),
  })
  .refine(({ follows, changes }) => follows === undefined || changes.length > 0, {
    path: ['follows'],
    error: 'A version that follows another says what changed and why.',
    params: { rule: 'changes-missing', hint: 'Add changes: with one sentence for each.' },
  })
  .refine(({ ratedPower, ratedLoad }) => ratedPower === undefined || ratedLoad !== undefined, {
    path: ['ratedPower'],
    error: 'A rated power needs the load that it is delivered into.',
    params: { rule: 'rated-load-missing', hint: 'Add ratedLoad:, for example ratedLoad: 8 Ω.' },
  })
  .refine(({ ratedPower }) => ratedPower === undefined || ratedPower > 0, {
    path: ['ratedPower'],
    error: 'A rated power is above 0 W.',
    params: { rule: 'rated-power', hint: 'Write what the amplifier delivers, for example ratedPower: 3 W.' },
  });

export type VersionData = z.infer<typeof versionSchema>;
