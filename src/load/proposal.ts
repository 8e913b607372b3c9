import type { Candidate, SweepRow } from './types.ts';

/** What the model gives at a load. */
type Outcome = Pick<SweepRow, 'powerW' | 'secondRatio' | 'thirdRatio' | 'thdRatio'>;

/** A rule's answer before the model is asked what it gives there. */
export type Proposal = Omit<Candidate, keyof Outcome>;

/** A proposal with what the model gives at its load; nulls where it gives nothing there. */
export function withOutcome(proposal: Proposal, outcome: Outcome | null | undefined): Candidate {
  return {
    ...proposal,
    powerW: outcome?.powerW ?? null,
    secondRatio: outcome?.secondRatio ?? null,
    thirdRatio: outcome?.thirdRatio ?? null,
    thdRatio: outcome?.thdRatio ?? null,
  };
}

/** A proposal that was found in the sweep of loads. */
export const computed = (found: Omit<Proposal, 'source' | 'status'>): Proposal => ({
  ...found,
  source: 'computed from the model',
  status: 'derived',
});
