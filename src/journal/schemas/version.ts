import { z } from 'zod';
import { date, line, quantity } from './fields.ts';
import { stageSchema } from './stage.ts';
import { supplySchema } from './supply.ts';

const part = z.strictObject({
  /** What it is: `Output transformer`. */
  part: line,
  /** `2.5 kΩ to 8 Ω`. */
  value: z.union([line, z.number()]).transform(String).optional(),
  /** `2` (default 1). */
  quantity: z.number().positive().default(1),
  /** As the maker pays it: `85.00 EUR`. */
  price: line.optional(),
  /** As the maker writes it. */
  supplier: line.optional(),
});

/** amplifiers/<amp>/<version>.md: one version of an amplifier. */
export const versionSchema = z.strictObject({
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
  supply: supplySchema.optional(),
  stages: z.array(stageSchema).default([]),
  parts: z.array(part).default([]),
});

export type VersionData = z.infer<typeof versionSchema>;
