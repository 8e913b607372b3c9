import { type PlateFeed, solveRest } from '../stage/operating-point.ts';
import type { Bias, Device, LoadFault, Rest, StageDevice } from '../types.ts';
import { marginOf } from './connections.ts';
import { restOutsideCurves } from './device-messages.ts';
import { type ScreenFeed, solveRestWithScreen } from './screen-feed.ts';

/**
 * The point of rest of a stage's tubes and the device that they are for signals about it. A bias by current is
 * that of each tube; in distributed load it is the current that counts in the winding, the plate's and the tap's
 * share of the screen's. A cathode resistor carries all tubes.
 */
export function restOnDevice(
  tubes: StageDevice,
  { feed, bias, screen }: { feed: PlateFeed; bias: Bias; screen?: ScreenFeed | null },
): { rest: Rest; device: Device } | { fault: LoadFault } {
  const together: Bias =
    bias.kind === 'current' ? { kind: 'current', plateA: tubes.count * bias.plateA } : bias;
  const query = { device: tubes.resting, feed, bias: together };
  const found = screen
    ? solveRestWithScreen(query, screen)
    : solveRest({ ...query, screenV: tubes.screenAt(0) });
  if ('fault' in found) return found;
  const rest = screen ? found.rest : { ...found.rest, screenV: tubes.screenAt(found.rest.plateV) };
  if (marginOf(tubes.resting, rest) < 0) return { fault: restOutsideCurves(rest.plateV, rest.gridV) };
  return { rest, device: tubes.around(rest) };
}
