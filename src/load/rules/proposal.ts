import type { Candidate, SweepRow } from '../types.ts';

/** What a stage gives at a load. */
export type LoadRow = Omit<SweepRow, 'limitedBy'>;

/** An answer to the question of the load before the model is asked what it gives there. */
export type Proposal = Pick<
  Candidate,
  'method' | 'short' | 'loadOhm' | 'basis' | 'source' | 'status' | 'part'
>;

/** The answer of a rule. */
export const ofRule = (rule: Omit<Proposal, 'part'>): Proposal => ({ ...rule, part: null });

/** The answer of a rule that was found among computed loads. */
export const computed = (found: Omit<Proposal, 'source' | 'status' | 'part'>): Proposal => ({
  ...found,
  source: 'computed from the model',
  status: 'derived',
  part: null,
});
