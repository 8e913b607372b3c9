import { z } from 'zod';
import { captureSchema } from './capture.ts';
import { expectationsSchema } from './claim.ts';
import { date, line } from './fields.ts';
import { repeatabilitySchema } from './repeatability.ts';
import { repeatsSchema } from './repeats.ts';

const keyFigure = z.strictObject({
  /** Id of a figure: `thd`. */
  figure: line,
  /** A capture of this log, or repeats of it, and the channel: `tone-1w#speaker`. */
  of: line,
});

/** logs/<date>-<slug>/index.md: one dated build log. */
export const logSchema = z.strictObject({
  /** Heading of the page: `A driver that cancels`. */
  title: line,
  /** The day of the work: `2026-02-28`. */
  date,
  /** `amplifiers/heron`. */
  amplifier: line,
  /** `amplifiers/heron/v2`. */
  version: line.optional(),
  /** What was asked, one sentence. */
  question: line,
  /** The short answer; left out while the question is open. */
  answer: line.optional(),
  /** Topics that gather logs: `[ 2A3, driver ]`. */
  tags: z.array(line).default([]),
  /** Capture files beside the log, each with how it is to be read. */
  captures: z.array(captureSchema).default([]),
  /** Captures that repeat each other, with what was done anew between them. */
  repeats: repeatsSchema,
  /** How far single captures scatter when set up anew, as found earlier; for captures that are not repeated. */
  repeatability: repeatabilitySchema,
  /** Claims written before measuring. */
  expectations: expectationsSchema,
  /** At most three figures shown at the top with their intervals. */
  keyFigures: z.array(keyFigure).max(3).default([]),
});

export type LogData = z.infer<typeof logSchema>;
