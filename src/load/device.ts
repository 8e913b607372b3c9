import { korenPentode, korenTriode } from './koren.ts';
import type { Connection, Device, Electrodes, TubeType } from './types.ts';

/** The tube's own electrodes, before any connection. */
export function electrodesOf(tube: TubeType): Device {
  return tube.construction === 'triode' ? korenTriode(tube.model) : korenPentode(tube.model);
}

/** The tube as connected: a pentode in triode connection has its screen at the plate. */
export function deviceOf(tube: TubeType, connection: Connection): Device {
  const electrodes = electrodesOf(tube);
  return tube.construction === 'pentode' && connection === 'triode' ? strapped(electrodes) : electrodes;
}

function strapped(device: Device): Device {
  const atPlate = ({ plateV, gridV }: Electrodes) => ({ plateV, screenV: plateV, gridV });
  return {
    plateCurrent(at) {
      const joined = atPlate(at);
      return device.plateCurrent(joined) + device.screenCurrent(joined);
    },
    screenCurrent: () => 0,
  };
}

/** True where the screen has a supply of its own. */
export function hasSeparateScreen(tube: TubeType, connection: Connection): boolean {
  return tube.construction === 'pentode' && connection === 'pentode';
}

/** Current of the plate load in amperes; in triode connection of a pentode the screen's share is in it. */
export function plateCurrent(tube: TubeType, connection: Connection, at: Electrodes): number {
  return deviceOf(tube, connection).plateCurrent(at);
}

/** Current of a separately fed screen in amperes; 0 where there is none. */
export function screenCurrent(tube: TubeType, connection: Connection, at: Electrodes): number {
  return deviceOf(tube, connection).screenCurrent(at);
}
