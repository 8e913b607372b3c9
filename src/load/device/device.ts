import type { Connection, Device, Electrodes, TubeType } from '../types.ts';
import { strapped } from './connections.ts';
import { korenPentode, korenTriode } from './koren.ts';

/** The tube's own electrodes, before any connection. */
export function electrodesOf(tube: TubeType): Device {
  return tube.construction === 'triode' ? korenTriode(tube.model) : korenPentode(tube.model);
}

/**
 * The tube as connected: a pentode in triode connection has its screen at the plate. In distributed load these
 * are its own electrodes, as the tap's voltage depends on the point of rest: see stageDevice.
 */
export function deviceOf(tube: TubeType, connection: Connection): Device {
  const electrodes = electrodesOf(tube);
  return tube.construction === 'pentode' && connection === 'triode' ? strapped(electrodes) : electrodes;
}

/** Current of the plate load in amperes; in triode connection of a pentode the screen's share is in it. */
export function plateCurrent(tube: TubeType, connection: Connection, at: Electrodes): number {
  return deviceOf(tube, connection).plateCurrent(at);
}

/** Current of a separately fed screen in amperes; 0 where there is none. */
export function screenCurrent(tube: TubeType, connection: Connection, at: Electrodes): number {
  return deviceOf(tube, connection).screenCurrent(at);
}
