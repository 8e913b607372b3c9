import type { PowerStage } from '../stage/power-stage.ts';
import type { SweepRow } from '../types.ts';
import type { Proposal } from './proposal.ts';

/** A stage at rest as the rules of load see it. */
export interface RuleStage {
  /** What the rules that are formulas say of this point of rest. */
  formulas: readonly Proposal[];
  /** At the described drive, or the largest undisturbed one; null where nothing swings. */
  rowAt(loadOhm: number): SweepRow | null;
  /** At any drive up to the largest undisturbed one; null where nothing swings. */
  driven(loadOhm: number): PowerStage | null;
}

/** A function of a load that computes each load once; `known` are those computed before. */
export function remembered<T>(
  compute: (loadOhm: number) => T,
  known: readonly (T & { loadOhm: number })[] = [],
): (loadOhm: number) => T {
  const found = new Map<number, T>(known.map((one) => [one.loadOhm, one]));
  return (loadOhm) => {
    const earlier = found.get(loadOhm);
    if (earlier !== undefined) return earlier;
    const value = compute(loadOhm);
    found.set(loadOhm, value);
    return value;
  };
}
