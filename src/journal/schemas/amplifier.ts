import { z } from 'zod';
import { line } from './fields.ts';

/** amplifiers/<amp>/index.md: what the amplifier is for. */
export const amplifierSchema = z.strictObject({
  /** `Heron`. */
  title: line,
  /** One sentence: what it is for. */
  purpose: line,
  /** `tube`, `transistor` or `hybrid`. */
  kind: z.enum(['tube', 'transistor', 'hybrid']),
  /** One line: `single-ended triode, resistance-coupled driver`. */
  topology: line,
  /** Questions not yet answered, one sentence each. */
  openQuestions: z.array(line).default([]),
});

export type AmplifierData = z.infer<typeof amplifierSchema>;
