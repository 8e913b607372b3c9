import { z } from 'zod';
import { billKeys } from './bill.ts';
import { chainSchema } from './chain.ts';
import { date, line, quantity } from './fields.ts';
import { limitsSchema } from './limit.ts';
import { stagesSchema } from './stage.ts';
import { supplySchema } from './supply.ts';

/** amplifiers/<amp>/<version>.md: one version of an amplifier. */
export const versionSchema = z
  .strictObject({
    /** `Heron 2`. */
    title: line,
    /** The day on which it was finished: `2026-02-28`. */
    date,
    /** `on the bench`, `current`, `retired` or `withdrawn`. */
    state: z.enum(['on the bench', 'current', 'retired', 'withdrawn']),
    /** Why it is withdrawn, for somebody who has built it: `The reservoir keeps its charge; add a bleeder.` */
    reason: line.optional(),
    /** `true` for a withdrawn version whose builds must no longer be used. */
    dangerous: z.boolean().default(false),
    /** The version this one grew out of: `amplifiers/heron/v1`. */
    follows: line.optional(),
    /** What changed and why, one sentence each. */
    changes: z.array(line).default([]),
    /** What the changes mean for somebody who has built the version it follows: `Only the bleeders are worth it.` */
    forBuilders: line.optional(),
    /** One sentence about the version. */
    summary: line,
    /** The load its power is rated into: `8 Ω`. */
    ratedLoad: quantity('resistance').optional(),
    /** What it is rated to deliver into that load, the reference of signal-to-noise ratios: `3 W`. */
    ratedPower: quantity('power').optional(),
    /** The supply, of which ripple, sag, stored energy and discharge are computed. */
    supply: supplySchema.optional(),
    /** The stages, of each of which a load sheet is computed. */
    stages: stagesSchema,
    /** From source to speaker: what the gain budget is computed of. */
    chain: chainSchema.optional(),
    ...billKeys,
    /** What every unit that is built must keep: `[ { reading: Cathode voltage, least: 12.5 V, most: 14.5 V } ]`. */
    limits: limitsSchema.default([]),
  })
  .refine(({ follows, changes }) => follows === undefined || changes.length > 0, {
    path: ['follows'],
    error: 'A version that follows another says what changed and why.',
    params: { rule: 'changes-missing', hint: 'Add changes: with one sentence for each.' },
  })
  .refine(({ follows, forBuilders }) => follows !== undefined || forBuilders === undefined, {
    path: ['forBuilders'],
    error: 'This speaks to builders of the version that this one follows, but it follows none.',
    params: {
      rule: 'for-builders',
      hint: 'Add follows: with the id of that version, or remove forBuilders:.',
    },
  })
  .superRefine(({ state, reason, dangerous }, context) => {
    const refuse = (path: string, message: string, hint: string) =>
      context.addIssue({ code: 'custom', path: [path], message, params: { rule: 'withdrawn', hint } });
    if (state === 'withdrawn') {
      if (reason !== undefined) return;
      refuse('state', 'A version that is withdrawn says why.', 'Add reason: with one sentence.');
      return;
    }
    const hint = 'Write state: withdrawn, or remove this key.';
    if (dangerous) refuse('dangerous', 'Only a withdrawn version is marked as dangerous.', hint);
    if (reason !== undefined) refuse('reason', 'Only a withdrawn version gives a reason.', hint);
  })
  .refine(({ parts, partsFile }) => partsFile === undefined || parts.length === 0, {
    path: ['partsFile'],
    error: 'The parts stand in this record and in a file; one of the two would go stale.',
    params: { rule: 'parts-twice', hint: 'Remove parts: or partsFile:.' },
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
