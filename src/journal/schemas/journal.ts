import { z } from 'zod';
import { distinctIds, line, quantity, slug, wholeNumber } from './fields.ts';

/** What an instrument adds to every figure measured with it. */
const instrument = z.strictObject({
  /** Name used by captures: `scope-8`. */
  id: slug,
  /** What it is: `Eight-bit two-channel scope`. */
  name: line,
  /** Resolution of its converter: `8`. */
  bits: wholeNumber(1, 32).optional(),
  /** Error of its gain: `3 %`. */
  gainAccuracy: quantity('ratio').optional(),
  /** `20 MHz`. */
  bandwidth: quantity('frequency').optional(),
  /** `40 V`. */
  largestInput: quantity('voltage').optional(),
  /** Distortion of its own: `0.3 %`. */
  ownDistortion: quantity('ratio').optional(),
});

const mains = quantity('frequency').refine((value) => value === 50 || value === 60, {
  error: 'The mains has 50 Hz or 60 Hz.',
  params: { rule: 'mains', hint: 'Write 50 Hz or 60 Hz.' },
});

const address = line.refine((text) => URL.canParse(text) && /^https?:\/\//i.test(text), {
  error: (issue) => `"${String(issue.input)}" is not the address of a site.`,
  params: { rule: 'site-address', hint: 'Write it in full, for example https://example.org.' },
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
  site: address.optional(),
  /** `tube` (default) or `valve`: the word the site uses. */
  wording: z.enum(['tube', 'valve']).default('tube'),
  /** Mains frequency where the amplifiers are measured: `50 Hz` or `60 Hz`. */
  mains: mains.default(50),
  /** `true` where captures are invented: every page that shows them says so. */
  invented: z.boolean().default(false),
  /** `true` allows .mdx logs, which run code while the site is built. */
  mdx: z.boolean().default(false),
  /** Sentences added to the safety notice. */
  safety: line.optional(),
  instruments: z.array(instrument).superRefine(distinctIds).default([]),
  /** Questions not yet answered, one sentence each. */
  openQuestions: z.array(line).default([]),
});

export type JournalSettings = z.infer<typeof journalSchema>;
