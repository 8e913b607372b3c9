import { z } from 'zod';
import { evidenceSchema, expectationsSchema } from './claim.ts';
import { date, distinctIds, line, slug } from './fields.ts';

const option = z.strictObject({
  /** `more-current`. */
  id: slug,
  /** `150 mA of idle current and a larger sink`. */
  title: line,
  /** The record of a part that it needs: `parts/heron-output`. */
  part: line.optional(),
  /** What speaks for it or against it, one sentence. */
  note: line.optional(),
});

/** decisions/<nnnn>-<slug>.md: one question with its options, what was claimed, and what was decided. */
export const decisionSchema = z
  .strictObject({
    /** `Which driver for Heron`. */
    title: line,
    /** The day of the decision, or of the question while it is open: `2026-03-28`. */
    date,
    /** `amplifiers/heron`. */
    amplifier: line,
    /** The version that carries it: `amplifiers/heron/v2`. */
    version: line.optional(),
    /** What is to be decided, one sentence. */
    question: line,
    /** `open`, `decided`, `replaced by` or `withdrawn`. */
    state: z.enum(['open', 'decided', 'replaced by', 'withdrawn']),
    /** The decision that holds in its place: `decisions/0003-another-driver`. */
    replacedBy: line.optional(),
    /** `true` for a withdrawn decision whose builds must no longer be used. */
    dangerous: z.boolean().default(false),
    /** What there was to choose from. */
    options: z.array(option).superRefine(distinctIds).default([]),
    /** Id of the option that was chosen: `more-current`. */
    chosen: line.optional(),
    /** What was expected before measuring. */
    expectations: expectationsSchema,
    /** What the decision rests on. */
    evidence: evidenceSchema,
    /** The decision in a sentence or two; left out while it is open. */
    decision: line.optional(),
    /** What follows from it, one sentence each. */
    consequences: z.array(line).default([]),
  })
  .superRefine(({ state, replacedBy, dangerous, options, chosen, decision }, context) => {
    const refuse = (path: string, message: string, hint: string) =>
      context.addIssue({ code: 'custom', path: [path], message, params: { rule: 'decision', hint } });
    if (state === 'replaced by' && replacedBy === undefined) {
      refuse(
        'state',
        'A decision that was replaced says by which.',
        'Add replacedBy: with the id of the other decision.',
      );
    }
    if (state !== 'replaced by' && replacedBy !== undefined) {
      refuse(
        'replacedBy',
        `A decision in the state "${state}" is not replaced.`,
        'Write state: replaced by, or remove replacedBy:.',
      );
    }
    if (dangerous && state !== 'withdrawn') {
      refuse(
        'dangerous',
        'Only a withdrawn decision is marked as dangerous.',
        'Write state: withdrawn, or remove dangerous:.',
      );
    }
    if (state === 'decided' && decision === undefined) {
      refuse(
        'state',
        'A decision that was made says what it is.',
        'Add decision: with one sentence, or write state: open.',
      );
    }
    if (chosen !== undefined && !options.some(({ id }) => id === chosen)) {
      const known = options.map(({ id }) => id).join(', ');
      refuse(
        'chosen',
        `There is no option "${chosen}" in this decision.`,
        known === '' ? 'List it under options:.' : `There are: ${known}.`,
      );
    }
  });

export type DecisionData = z.infer<typeof decisionSchema>;
