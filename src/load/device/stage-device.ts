import { noScreen, unknownDevice } from '../messages.ts';
import type {
  Device,
  DeviceChoice,
  LoadFault,
  RatedTube,
  StageDevice,
  TubeLibrary,
  TubeType,
} from '../types.ts';
import { multiplied, strapped, tapped, tappedAtRest } from './connections.ts';
import { electrodesOf } from './device.ts';
import { isCount, isTap } from './device-bounds.ts';
import {
  countOutOfRange,
  noScreenToTap,
  tapMissing,
  tapOutOfRange,
  tappedCurves,
  tapUnused,
  unusableCurves,
} from './device-messages.ts';
import { tracedDevice } from './traced-device.ts';
import { faultOfFamily } from './traced-family.ts';

/**
 * The tubes of a stage as described and connected, or everything that stands in the way. `factor` multiplies
 * their currents. In distributed load the device for signals depends on the point of rest; otherwise both are
 * the same.
 */
export function stageDevice(
  choice: DeviceChoice,
  tubes: TubeLibrary,
  factor = 1,
): { device: StageDevice } | { faults: LoadFault[] } {
  const tube = Object.hasOwn(tubes, choice.device) ? tubes[choice.device] : undefined;
  const curves = choice.curves ?? null;
  if (!tube && !curves) return { faults: [unknownDevice(choice.device, Object.keys(tubes))] };
  const rated = ratedTube(choice, tube);
  const faults = faultsOf(choice, rated);
  const own = curves ? tracedDevice(curves) : tube && electrodesOf(tube);
  if (faults.length > 0 || !own) return { faults };
  const count = choice.count ?? 1;
  const shared = { rated, count, curves, modelSource: curves ? null : (tube?.modelSource ?? null) };
  return { device: { ...shared, ...connected(multiplied(own, count * factor), choice, rated) } };
}

/** A type that is not in the data has no ratings, and as many electrodes as its connection takes. */
function ratedTube({ device, connection }: DeviceChoice, tube: TubeType | undefined): RatedTube {
  if (tube) return tube;
  return { type: device, construction: connection === 'triode' ? 'triode' : 'pentode', ratings: {} };
}

type Connected = Pick<StageDevice, 'resting' | 'around' | 'screenAt' | 'separateScreen'>;

function connected(
  own: Device,
  { connection, screenV, tapRatio, curves }: DeviceChoice,
  { construction }: RatedTube,
): Connected {
  const separateScreen = construction === 'pentode' && connection !== 'triode';
  if (connection === 'distributed-load') {
    const ratio = tapRatio ?? 0;
    return {
      separateScreen,
      resting: tappedAtRest(own, ratio, screenV),
      around: (rest) => tapped(own, ratio, rest),
      screenAt: (plateV) => screenV ?? plateV,
    };
  }
  // Curves traced as a triode have the screen's share in them.
  const joined = construction === 'pentode' && connection === 'triode' && !curves;
  const device = joined ? strapped(own) : own;
  return { separateScreen, resting: device, around: () => device, screenAt: () => screenV ?? 0 };
}

function faultsOf(choice: DeviceChoice, { construction }: RatedTube): LoadFault[] {
  const { device, connection, count, curves } = choice;
  const faults = tapFaults(choice);
  if (construction === 'triode' && connection === 'pentode') faults.push(noScreen(device));
  if (construction === 'triode' && connection === 'distributed-load') faults.push(noScreenToTap(device));
  if (!isCount(count ?? 1)) faults.push(countOutOfRange());
  if (curves && connection === 'distributed-load') faults.push(tappedCurves());
  const unusable = curves ? faultOfFamily(curves) : null;
  if (unusable !== null) faults.push(unusableCurves(unusable));
  return faults;
}

function tapFaults({ connection, tapRatio }: DeviceChoice): LoadFault[] {
  const ratio = tapRatio ?? null;
  if (connection !== 'distributed-load') return ratio === null ? [] : [tapUnused(connection)];
  if (ratio === null) return [tapMissing()];
  return isTap(ratio) ? [] : [tapOutOfRange(ratio)];
}
