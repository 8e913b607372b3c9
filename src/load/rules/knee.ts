import { findRoot } from '../solving/solve.ts';
import type { Device, Rest } from '../types.ts';

/** Plate voltage at which the zero-bias curve carries twice the current at rest; null where there is none below rest. */
export function kneeVoltage(device: Device, { plateV, screenV, plateA }: Rest): number | null {
  const excess = (volts: number) => device.plateCurrent({ plateV: volts, screenV, gridV: 0 }) - 2 * plateA;
  return findRoot(excess, { low: 0, high: plateV });
}
