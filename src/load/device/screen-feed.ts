import { noScreenBalance } from '../chain/coupling-messages.ts';
import { findRoot } from '../solving/solve.ts';
import { type RestQuery, type RestResult, solveRest } from '../stage/operating-point.ts';
import type { Rest } from '../types.ts';

/** A screen fed from the supply through a resistor, held by a capacitor for signals. */
export interface ScreenFeed {
  supplyV: number;
  ohm: number;
}

/** Share of the supply by which a solved screen voltage may miss. */
const tolerance = 1e-6;

/**
 * Point of rest with the screen voltage solved: supply less the drop of the screen current, less the cathode's voltage.
 * @source Kirchhoff's laws for supply, screen resistor and cathode resistor
 */
export function solveRestWithScreen(query: Omit<RestQuery, 'screenV'>, feed: ScreenFeed): RestResult {
  const raised = query.bias.kind === 'cathode-resistor';
  const at = (screenV: number) => solveRest({ ...query, screenV });
  const excess = ({ screenA, screenV, gridV }: Rest) =>
    feed.supplyV - feed.ohm * screenA - (raised ? -gridV : 0) - screenV;
  // Too low a screen voltage leaves no point of rest: the one looked for is higher.
  const above = (screenV: number) => {
    const found = at(screenV);
    return 'fault' in found ? 1 : excess(found.rest);
  };
  const highest = at(feed.supplyV);
  if ('fault' in highest || excess(highest.rest) >= 0) return highest;
  const screenV = findRoot(above, { low: 0, high: feed.supplyV });
  const found = screenV === null ? null : at(screenV);
  const solved = found && 'rest' in found && Math.abs(excess(found.rest)) <= tolerance * feed.supplyV;
  return found && solved ? found : { fault: noScreenBalance(feed.ohm) };
}
