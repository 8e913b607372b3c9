import { findRoot, firstNegative } from './solve.ts';
import type { Evaluation, Means } from './steady-means.ts';

/** Relative tolerance of the averages. */
const settled = 1e-9;
/** What one average may miss after the other was bracketed; where a device jumps, no average agrees. */
const agreed = 1e-6;

/**
 * The cycle whose average plate and screen current are those that it was computed with, by bracketing one inside the
 * other: slow and sure, for drives at which Newton's method loses its way. Null where nothing settles.
 */
export function searchedCycle<Cycle>(
  evaluate: (trial: Means) => Evaluation<Cycle>,
  restA: number,
): Cycle | null {
  const withScreen = (screenA: number): Means | null => {
    const excess = (plateA: number) => (evaluate([plateA, screenA]).means[0] ?? Number.NaN) - plateA;
    const high = firstNegative(excess, 2 * restA);
    const plateA = high === null ? null : findRoot(excess, { low: 0, high }, settled);
    return plateA === null ? null : [plateA, screenA];
  };
  const screenOf = (screenA: number) => {
    const averages = withScreen(screenA);
    return (averages && evaluate(averages).means[1]) ?? Number.NaN;
  };
  const high = screenOf(0);
  const excess = (screenA: number) => screenOf(screenA) - screenA;
  const screenA = high === 0 ? 0 : findRoot(excess, { low: 0, high }, settled);
  const averages = screenA === null ? null : withScreen(screenA);
  const found = averages && evaluate(averages);
  const agrees = found?.means.every(
    (mean, index) => Math.abs(mean - (averages?.[index] ?? 0)) <= agreed * (restA + mean),
  );
  return found && agrees ? found.cycle : null;
}
