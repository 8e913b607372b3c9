import { z } from 'zod';
import { line, quantity, slug } from './fields.ts';

/** What an instrument adds to every figure measured with it. */
const instrument = z.strictObject({
  /** Name used by captures: `scope-8`. */
  id: slug,
  /** What it is: `Eight-bit two-channel scope`. */
  name: line,
  /** Resolution of its converter: `8`. */
  bits: z.int().min(1).max(32).optional(),
  /** Error of its gain: `3 %`. */
  gainAccuracy: quantity('ratio').optional(),
  /** `20 MHz`. */
  bandwidth: quantity('frequency').optional(),
  /** `40 V`. */
  largestInput: quantity('voltage').optional(),
  /** Distortion of its own: `0.3 %`. */
  ownDistortion: quantity('ratio').optional(),
});

/** journal.yaml: what holds for the whole site. */
export const journalSchema = z.strictObject({
  /** Title of the site: `Low Shelf`. */
  title: line,
  /** One line under the title. */
  tagline: line.optional(),
  /** Who writes: a name as it should be printed. */
  author: line,
  /** A paragraph about the journal. */
  about: line.optional(),
  /** Address of the published site: `https://example.org`. */
  site: z.url({ protocol: /^https?$/ }).optional(),
  /** `tube` (default) or `valve`: the word the site uses. */
  wording: z.enum(['tube', 'valve']).default('tube'),
  /** Mains frequency where the amplifiers are measured: `50 Hz` or `60 Hz`. */
  mains: quantity('frequency').default(50),
  /** `true` where captures are invented: every page that shows them says so. */
  invented: z.boolean().default(false),
  /** `true` allows .mdx logs, which run code while the site is built. */
  mdx: z.boolean().default(false),
  /** Sentences added to the safety notice. */
  safety: line.optional(),
  instruments: z.array(instrument).default([]),
  /** Questions not yet answered, one sentence each. */
  openQuestions: z.array(line).default([]),
});

export type JournalSettings = z.infer<typeof journalSchema>;
