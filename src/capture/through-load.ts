import type { Conversion } from './convert.ts';
import type { ColumnQuantity } from './types.ts';

/**
 * Passes between power and voltage or current at a resistive load.
 * @source P = U²/R = I²R, rms values.
 */
export function throughLoad(
  read: Conversion,
  measured: ColumnQuantity,
  wanted: ColumnQuantity,
  loadOhm: number,
): Conversion {
  const toWatts = powerFrom(measured, loadOhm);
  const { unit, fromWatts } = powerTo(wanted, loadOhm);
  return {
    quantity: wanted,
    unit,
    factor: null,
    text: `${read.text}, as ${wanted} at ${loadOhm} Ω`,
    convert: (value) => fromWatts(toWatts(read.convert(value))),
  };
}

function powerFrom(measured: ColumnQuantity, loadOhm: number): (value: number) => number {
  if (measured === 'voltage') return (volts) => (volts * volts) / loadOhm;
  if (measured === 'current') return (amperes) => amperes * amperes * loadOhm;
  return (watts) => watts;
}

interface FromPower {
  unit: string;
  fromWatts: (watts: number) => number;
}

function powerTo(wanted: ColumnQuantity, loadOhm: number): FromPower {
  if (wanted === 'voltage') return { unit: 'V', fromWatts: (watts) => Math.sqrt(watts * loadOhm) };
  if (wanted === 'current') return { unit: 'A', fromWatts: (watts) => Math.sqrt(watts / loadOhm) };
  return { unit: 'W', fromWatts: (watts) => watts };
}
