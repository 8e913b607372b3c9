import { secondsAllowed } from '../solving/thresholds.ts';
import type { BleederNeeded, BleederPower, SupplyDescription } from '../types.ts';

/** Capacitance above nominal that the cautious figures allow for. */
export const capacitanceHigh = 1.2;

const limitV = 60;

/**
 * The one resistor across a supply's capacitors, taken as joined, that brings them from `highestV` to 60 V in
 * 5 s, and its power at that voltage. Null for split rails, without capacitors, and where nothing has to fall.
 * @source R = t / (C·ln(V/60 V)), P = V²/R; 60 V within 5 s: IEC 60204-1
 */
export function bleederNeeded(
  { capacitors, splitRails = false }: SupplyDescription,
  highestV: number | null,
): BleederNeeded | null {
  if (highestV === null || highestV <= limitV || splitRails || capacitors.length === 0) return null;
  const totalF = capacitors.reduce((total, { capacitanceF }) => total + capacitanceF, 0);
  const ohm = secondsAllowed / (totalF * Math.log(highestV / limitV));
  const watt = highestV ** 2 / ohm;
  return { ohm, watt, atToleranceOhm: ohm / capacitanceHigh, atToleranceW: watt * capacitanceHigh };
}

/** Power of each bleeder with the whole of the highest voltage across it. */
export function bleederPowers({ capacitors }: SupplyDescription, highestV: number | null): BleederPower[] {
  if (highestV === null) return [];
  return capacitors.flatMap(({ bleederOhm, bleederRatedW: ratedW = null }) => {
    if (bleederOhm === null) return [];
    const watt = highestV ** 2 / bleederOhm;
    return [{ ohm: bleederOhm, watt, ratedW, share: ratedW === null ? null : watt / ratedW }];
  });
}
