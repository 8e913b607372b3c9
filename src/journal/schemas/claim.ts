import { z } from 'zod';
import { anyQuantity } from './any-quantity.ts';
import { date, line, quantity, slug } from './fields.ts';

const above = (dimension: 'frequency' | 'power') =>
  quantity(dimension).refine((value) => value > 0, {
    error: `A ${dimension} above zero is expected here.`,
    params: { rule: 'number' },
  });

const claim = z.strictObject({
  /** Short name, for links to it: `less-second`. */
  id: slug.optional(),
  /** The rule of thumb that it puts to the test, named alike wherever that is done: `cancelling-halves`. */
  rule: slug.optional(),
  /** What is claimed, one sentence: `The second harmonic at one watt falls by at least 10 dB.` */
  says: line,
  /** When it was written, where that is not the date of the record: `2026-02-21`. */
  date: date.optional(),
  /** Id of a figure: `harmonic-2`. */
  figure: line,
  /** A capture with its channel, repeats, or a stage of a version: `tone-1w#load`, `amplifiers/heron/v2#output`. */
  of: line.optional(),
  /** What it is compared with, named in the same way. */
  than: line.optional(),
  /** What it is compared with, as a value: `1 %`. */
  against: anyQuantity.optional(),
  /** Where sweeps are read: `{ frequency: 1 kHz }` or `{ power: 1 W }`. */
  at: z
    .union([z.strictObject({ frequency: above('frequency') }), z.strictObject({ power: above('power') })], {
      error: 'A group with frequency: or power: is expected',
    })
    .optional(),
  /** A band of a frequency sweep, in which every point and both edges count: `[ 20 Hz, 100 Hz ]`. */
  over: z.tuple([above('frequency'), above('frequency')]).optional(),
  /** `mean` of the logarithm over that band, in place of every point by itself. */
  take: z.enum(['mean']).optional(),
  /** `lower`, `higher`, `within` or `equal`. */
  relation: z.enum(['lower', 'higher', 'within', 'equal']),
  /** By how much, or within how much: `10 dB`, `20 %` of the value compared with, `2 W`. */
  by: anyQuantity.optional(),
});

type ClaimInput = z.infer<typeof claim>;

/** One rule that a claim breaks: where, what is wrong and how to mend it. */
interface Broken {
  path: string;
  message: string;
  hint: string;
}

/** What does not go together in a claim. */
function brokenRules({ than, against, at, over, take, relation, by }: ClaimInput): Broken[] {
  const rules: [boolean, Broken][] = [
    [
      (than === undefined) === (against === undefined),
      {
        path: than === undefined ? 'relation' : 'against',
        message: 'A claim compares with either than: or against:, and with one of them only.',
        hint: 'Add than: with a capture or a stage, or against: with a value.',
      },
    ],
    [
      at !== undefined && over !== undefined,
      {
        path: 'over',
        message: 'A claim is made at one place or over a band, not both.',
        hint: 'Remove at: or over:.',
      },
    ],
    [
      take !== undefined && over === undefined,
      { path: 'take', message: 'A mean is taken over a band.', hint: 'Add over:, or remove take:.' },
    ],
    [
      over !== undefined && over[0] >= over[1],
      {
        path: 'over',
        message: 'The band does not begin below its end.',
        hint: 'Write the lower frequency first.',
      },
    ],
    [
      relation === 'within' && by === undefined,
      {
        path: 'relation',
        message: 'The relation "within" needs by:, which says within how much.',
        hint: 'Add by:, for example by: 10 %.',
      },
    ],
    [
      relation === 'equal' && by !== undefined,
      {
        path: 'by',
        message: 'The relation "equal" takes no by:.',
        hint: 'Write relation: within for a tolerance.',
      },
    ],
    [
      by !== undefined && by.value <= 0,
      { path: 'by', message: 'A margin is above zero.', hint: 'Say the direction with relation:.' },
    ],
  ];
  return rules.flatMap(([isBroken, broken]) => (isBroken ? [broken] : []));
}

const checkedClaim = claim.superRefine((value, context) => {
  for (const { path, message, hint } of brokenRules(value)) {
    context.addIssue({ code: 'custom', path: [path], message, params: { rule: 'claim', hint } });
  }
});

/** Refuses a second claim of a list with the same id. */
function distinctClaims(claims: readonly { id?: string | undefined }[], context: z.RefinementCtx): void {
  for (const [index, { id }] of claims.entries()) {
    if (id === undefined || claims.findIndex((other) => other.id === id) === index) continue;
    context.addIssue({
      code: 'custom',
      path: [index, 'id'],
      message: `Two claims of this list are called "${id}".`,
      params: { rule: 'duplicate-id', hint: 'Give one of them another id.' },
    });
  }
}

/** Claims written before measuring; what they are about may not be measured yet. */
export const expectationsSchema = z.array(checkedClaim).superRefine(distinctClaims).default([]);

/** Claims that a decision rests on. */
export const evidenceSchema = z
  .array(checkedClaim.refine(({ of }) => of !== undefined, { path: ['of'] }))
  .superRefine(distinctClaims)
  .default([]);

export type ClaimData = z.infer<typeof claim>;
