import { cutOff, noBalance, supplyUsedUp, wantsPositiveGrid } from '../messages.ts';
import { findRoot, firstNegative } from '../solving/solve.ts';
import type { Bias, Device, LoadFault, Rest } from '../types.ts';

/** What holds the plate: a stated voltage to the cathode, or a supply behind a resistance. */
export type PlateFeed = { kind: 'plate'; plateV: number } | { kind: 'supply'; supplyV: number; ohm: number };

export interface RestQuery {
  device: Device;
  feed: PlateFeed;
  /** Screen to cathode; any number where there is no separate screen. */
  screenV: number;
  bias: Bias;
}

export type RestResult = { rest: Rest } | { fault: LoadFault };

/** Below this plate current a stage counts as cut off. */
export const leastCurrentA = 1e-6;

/**
 * Point of rest of a stage: plate, screen and grid voltage to the cathode and the currents. Solved by
 * bracketing, to a relative 1e-12. A stage without such a point gives a fault that says why.
 * @source Kirchhoff's laws for supply, plate resistance and cathode resistor with the device's current
 */
export function solveRest(query: RestQuery): RestResult {
  const found = byBias(query);
  if ('fault' in found || found.rest.plateA >= leastCurrentA) return found;
  return { fault: cutOff(found.rest.plateA, found.rest.gridV) };
}

function byBias(query: RestQuery): RestResult {
  const { bias } = query;
  if (bias.kind === 'current') return restAtCurrent(query, bias.plateA);
  if (bias.kind === 'cathode-resistor') return restOnCathodeResistor(query, bias.ohm);
  const rest = restAtGrid(query, bias.gridV, 0);
  return rest ? { rest } : { fault: noBalance() };
}

/** Rest for a known grid voltage, the cathode standing `cathodeV` above the supply's return. */
function restAtGrid({ device, feed, screenV }: RestQuery, gridV: number, cathodeV: number): Rest | null {
  const plateV =
    feed.kind === 'plate' ? feed.plateV : onResistance(device, feed, { screenV, gridV, cathodeV });
  return plateV === null ? null : restAt(device, { plateV, screenV, gridV });
}

function restAt(device: Device, at: Pick<Rest, 'plateV' | 'screenV' | 'gridV'>): Rest {
  return { ...at, plateA: device.plateCurrent(at), screenA: device.screenCurrent(at) };
}

/** Plate voltage where the device's current and the drop in the plate resistance agree. */
function onResistance(
  device: Device,
  feed: { supplyV: number; ohm: number },
  { screenV, gridV, cathodeV }: { screenV: number; gridV: number; cathodeV: number },
): number | null {
  const available = Math.max(0, feed.supplyV - cathodeV);
  const excess = (plateV: number) =>
    plateV + feed.ohm * device.plateCurrent({ plateV, screenV, gridV }) - available;
  return findRoot(excess, { low: 0, high: available });
}

function restOnCathodeResistor(query: RestQuery, ohm: number): RestResult {
  const drop = (cathodeV: number) => {
    const rest = restAtGrid(query, -cathodeV, cathodeV);
    return rest ? ohm * (rest.plateA + rest.screenA) - cathodeV : Number.NaN;
  };
  const high = query.feed.kind === 'supply' ? query.feed.supplyV : drop(0);
  const cathodeV = findRoot(drop, { low: 0, high });
  const rest = cathodeV === null ? null : restAtGrid(query, -cathodeV, cathodeV);
  return rest ? { rest } : { fault: noBalance() };
}

function restAtCurrent({ device, feed, screenV }: RestQuery, plateA: number): RestResult {
  const plateV = feed.kind === 'plate' ? feed.plateV : feed.supplyV - feed.ohm * plateA;
  if (plateV <= 0) return { fault: supplyUsedUp(plateA) };
  const excess = (gridV: number) => device.plateCurrent({ plateV, screenV, gridV }) - plateA;
  if (excess(0) < 0) return { fault: wantsPositiveGrid(plateA, excess(0) + plateA, plateV) };
  const low = firstNegative(excess, -1);
  const gridV = low === null ? null : findRoot(excess, { low, high: 0 });
  return gridV === null ? { fault: noBalance() } : { rest: restAt(device, { plateV, screenV, gridV }) };
}
