import { printDecimals, printNumber, printQuantity } from '../quantity/index.ts';
import { isDecibel } from './levels.ts';
import type { View } from './views.ts';

const noBreakSpace = '\u00a0';

/** A place on the horizontal axis, with its unit. */
export function placeText(place: number, { along }: Pick<View, 'along'>): string {
  const { number, unit } = printQuantity(place, along === 'power' ? 'W' : 'Hz');
  return `${number}${noBreakSpace}${unit}`;
}

/** A value without its unit: decibels to a hundredth, others to three digits. */
export function valueNumber(value: number, unit: string): string {
  return isDecibel(unit) ? printDecimals(value, 2) : printNumber(value);
}

/** A value with its unit. */
export function valueText(value: number | null, unit: string): string {
  if (value === null) return 'no reading';
  const shown = isDecibel(unit) ? 'dB' : unit;
  return `${valueNumber(value, unit)}${noBreakSpace}${shown}`;
}
