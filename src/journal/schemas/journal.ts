import { z } from 'zod';
import { siteAddressFault } from '../publishing/site-address.ts';
import { coloursSchema } from './colours.ts';
import { distinctIds, line, quantity, slug, wholeNumber } from './fields.ts';
import { licenceSchema } from './licence.ts';
import { wordsSchema } from './words.ts';

const limit = quantity('ratio').refine((ratio) => ratio >= 0 && ratio < 1, {
  error: 'A share from 0 % to below 100 % is expected here.',
  params: { rule: 'number', hint: 'Write the limit of the error, for example 3 %.' },
});

const ownDistortionPoint = z.strictObject({
  /** `1 kHz`. */
  frequency: quantity('frequency').refine((hertz) => hertz > 0, {
    error: 'A frequency above 0 Hz is expected here.',
    params: { rule: 'number' },
  }),
  /** `0.02 %`. */
  ratio: limit,
});

const ownDistortion = z.union([limit, z.array(ownDistortionPoint).min(1).superRefine(ascending)], {
  error: 'A ratio, or a list of frequencies with ratios, is expected',
});

/** Refuses an entry whose frequency is not above that of the one before. */
function ascending(points: readonly { frequency: number }[], context: z.RefinementCtx): void {
  for (const [index, { frequency }] of points.entries()) {
    if (index === 0 || frequency > (points[index - 1]?.frequency ?? 0)) continue;
    context.addIssue({
      code: 'custom',
      path: [index, 'frequency'],
      message: 'This frequency is not above the one before it.',
      params: { rule: 'not-ascending', hint: 'Order the entries by frequency, each frequency once.' },
    });
  }
}

/** What is stated about an instrument, and so about every figure measured with it. */
const instrument = z.strictObject({
  /** Name used by captures: `scope-8`. */
  id: slug,
  /** What it is: `Eight-bit two-channel scope`. */
  name: line,
  /** Resolution of its converter: `8`. */
  bits: wholeNumber(1, 32).optional(),
  /** Limit of the error of its gain: `3 %`. */
  gainAccuracy: limit.optional(),
  /** Where it may read 3 dB low: `20 MHz`. */
  bandwidth: quantity('frequency')
    .refine((hertz) => hertz > 0, {
      error: 'A frequency above 0 Hz is expected here.',
      params: { rule: 'number' },
    })
    .optional(),
  /** Largest voltage, as a peak to either side: `40 V`. */
  largestInput: quantity('voltage')
    .refine((volts) => volts > 0, {
      error: 'A voltage above 0 V is expected here.',
      params: { rule: 'number' },
    })
    .optional(),
  /** Limit of the error of its clock, as a share of every frequency: `50 ppm`. */
  clockAccuracy: limit.optional(),
  /** Bound of its own THD: `0.3 %`, or a list: `[{ frequency: 1 kHz, ratio: 0.02 % }]`, held beyond its ends. */
  ownDistortion: ownDistortion.optional(),
});

const mains = quantity('frequency').refine((value) => value === 50 || value === 60, {
  error: 'The mains has 50 Hz or 60 Hz.',
  params: { rule: 'mains', hint: 'Write 50 Hz or 60 Hz.' },
});

const address = line.superRefine((text, context) => {
  const fault = siteAddressFault(text);
  if (fault) {
    const { message, hint } = fault;
    context.addIssue({ code: 'custom', message, params: { rule: 'site-address', hint } });
  }
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
  /** What others may do with its captures and figures: `{ name: CC-BY-4.0, address: https://… }`. */
  licence: licenceSchema.optional(),
  /** `tube` (default) or `valve`: the word the site uses. */
  wording: z.enum(['tube', 'valve']).default('tube'),
  /** Words of the site: names of its lists, headings of its first page, a sentence at its foot. */
  words: wordsSchema.default({}),
  /** Colours of the site, each told from the paper by at least 4.5:1. */
  colours: coloursSchema.optional(),
  /** Mains frequency where the amplifiers are measured: `50 Hz` or `60 Hz`. */
  mains: mains.default(50),
  /** `true` where captures are invented: every page that shows them says so. */
  invented: z.boolean().default(false),
  /** `true` allows .mdx logs, which run code while the site is built. */
  mdx: z.boolean().default(false),
  /** `true` makes evidence that is not borne out an error: no site is written. */
  strictClaims: z.boolean().default(false),
  /** Sentences added to the safety notice, whose own stay: `Connect the dummy load before the mains.` */
  safety: line.optional(),
  /** Instruments that captures name, with what is known about them. */
  instruments: z.array(instrument).superRefine(distinctIds).default([]),
  /** Questions not yet answered, one sentence each. */
  openQuestions: z.array(line).default([]),
});

export type JournalSettings = z.infer<typeof journalSchema>;
