import { smallSignal } from '../device/small-signal.ts';
import { hasScreenCurrent } from '../device/traced-family.ts';
import type { Device, OperatingPoint, Rest, StageDevice } from '../types.ts';

/** Point of rest of one tube of a side; `device` is the mean of both sides. */
export function pairPoint({
  tubes: { count, separateScreen, curves },
  device,
  rest,
}: {
  tubes: StageDevice;
  device: Device;
  rest: Rest;
}): OperatingPoint {
  const { gmS, rpOhm, mu } = smallSignal(device, rest);
  const known = !curves || hasScreenCurrent(curves);
  const screen = separateScreen
    ? { screenV: rest.screenV, screenA: known ? rest.screenA / count : null }
    : { screenV: null, screenA: null };
  return {
    plateV: rest.plateV,
    plateA: rest.plateA / count,
    gridV: rest.gridV,
    ...screen,
    gmS: gmS / count,
    rpOhm: rpOhm === null ? null : rpOhm * count,
    mu,
  };
}
