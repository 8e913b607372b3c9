import type { Device, ElectrodeCurrents, Electrodes } from '../types.ts';

/** What the electrodes themselves carry, whatever the connection makes of it. */
export function insideOf(device: Device, at: Electrodes): ElectrodeCurrents {
  return (
    device.inside?.(at) ?? {
      plateA: device.plateCurrent(at),
      screenA: device.screenCurrent(at),
      screenV: at.screenV,
    }
  );
}

/** Volts by which a point lies inside what is known of the device; negative outside. */
export const marginOf = (device: Device, at: Electrodes): number =>
  device.margin?.(at) ?? Number.POSITIVE_INFINITY;

/** The screen at the plate: triode connection. */
export function strapped(tube: Device): Device {
  const joined = ({ plateV, gridV }: Electrodes) => ({ plateV, screenV: plateV, gridV });
  return {
    plateCurrent: (at) => tube.plateCurrent(joined(at)) + tube.screenCurrent(joined(at)),
    screenCurrent: () => 0,
    inside: (at) => insideOf(tube, joined(at)),
  };
}

/**
 * The screen at a tap of the primary, with `tapRatio` of the turns between supply and tap: its voltage moves by
 * that share of the plate's, and its signal current counts in the load by that share (ampere-turns). A tap
 * ratio of 0 is the pentode, of 1 the triode. What the screen takes past the load is the rest of its current,
 * at the screen's voltage at rest; both shares together are the power that plate and screen turn into heat.
 * @source D. Hafler and H. I. Keroes, Audio Engineering, November 1951, for the connection (from memory);
 * ampere-turns of an ideal tapped winding
 */
export function tapped(tube: Device, tapRatio: number, rest: Pick<Electrodes, 'plateV' | 'screenV'>): Device {
  const moved = ({ plateV, screenV, gridV }: Electrodes) => {
    // Below its voltage at rest by as much as an unbypassed cathode has risen.
    const riseV = rest.screenV - screenV;
    return { plateV, screenV: screenV + tapRatio * (plateV + riseV - rest.plateV), gridV };
  };
  return tapCurrents(tube, tapRatio, moved);
}

/** Distributed load at rest, before the plate's voltage is known: the screen at its own voltage or the plate's. */
export function tappedAtRest(tube: Device, tapRatio: number, screenV: number | null): Device {
  return tapCurrents(tube, tapRatio, (at) => ({ ...at, screenV: screenV ?? at.plateV }));
}

function tapCurrents(tube: Device, tapRatio: number, moved: (at: Electrodes) => Electrodes): Device {
  return {
    plateCurrent: (at) => {
      const own = moved(at);
      return tube.plateCurrent(own) + tapRatio * tube.screenCurrent(own);
    },
    screenCurrent: (at) => (1 - tapRatio) * tube.screenCurrent(moved(at)),
    inside: (at) => insideOf(tube, moved(at)),
  };
}

/** The currents of a device times a factor: several in parallel, or a specimen stronger than its model. */
export function multiplied(device: Device, factor: number): Device {
  if (factor === 1) return device;
  const { margin } = device;
  return {
    plateCurrent: (at) => factor * device.plateCurrent(at),
    screenCurrent: (at) => factor * device.screenCurrent(at),
    inside: (at) => {
      const { plateA, screenA, screenV } = insideOf(device, at);
      return { plateA: factor * plateA, screenA: factor * screenA, screenV };
    },
    ...(margin ? { margin } : {}),
  };
}
