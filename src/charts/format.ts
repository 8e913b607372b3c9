import { printDecimals, printNumber, printQuantity } from '../quantity/index.ts';

const noBreakSpace = '\u00a0';

/** A number to a count of significant digits, without trailing zeros. */
export function significant(value: number, digits: number): string {
  return trimmed(printNumber(value, digits));
}

/** A number to at most a count of decimals, without trailing zeros. */
export function fixed(value: number, decimals: number): string {
  return trimmed(printDecimals(value, decimals));
}

/** A value with the SI prefix that leaves one to three digits before the point: `31 kHz`, `62.5 mA`. */
export function withPrefix(value: number, unit: string, digits = 2): string {
  const printed = printQuantity(value, unit, digits);
  return [trimmed(printed.number), printed.unit].filter((part) => part !== '').join(noBreakSpace);
}

/** The SI prefix, pico to giga, that leaves one to three digits before the point. */
export function prefixFor(value: number): { factor: number; prefix: string } {
  if (value === 0) return { factor: 1, prefix: '' };
  const power = 3 * Math.floor(Math.log10(Math.abs(value)) / 3 + 1e-9);
  const factor = 10 ** Math.min(9, Math.max(-12, power));
  return { factor, prefix: printQuantity(factor, 'V').unit.replace('V', '') };
}

function trimmed(number: string): string {
  return number.includes('.') && !number.includes('e') ? number.replace(/\.?0+$/, '') : number;
}

/** A frequency as text of a sentence. */
export const hertz = (value: number): string => withPrefix(value, 'Hz');

/** A ratio in per cent: 0.0123 → `1.2 %`. */
export function percent(ratio: number, digits = 2): string {
  return `${significant(ratio * 100, digits)}${noBreakSpace}%`;
}

/** A level in decibels. */
export function decibels(level: number, decimals = 0): string {
  return `${fixed(level, decimals)}${noBreakSpace}dB`;
}

/** A count with its noun. */
export function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** Joins names as a sentence does: `a`, `a and b`, `a, b and c`. */
export function listed(items: readonly string[]): string {
  if (items.length < 2) return items.join('');
  return `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

const ordinals = [
  'zeroth',
  'first',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'eighth',
  'ninth',
  'tenth',
];

/** The ordinal of a harmonic, in words up to the tenth: `third`, `11th`. */
export function ordinal(order: number): string {
  const word = ordinals[order];
  if (word !== undefined) return word;
  const ending = [11, 12, 13].includes(order % 100) ? 'th' : (['th', 'st', 'nd', 'rd'][order % 10] ?? 'th');
  return `${order}${ending}`;
}

/** The same text with a capital first letter. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
