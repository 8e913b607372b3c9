/** A value printed for reading: number and unit apart, so that a page can set the unit in a lighter tone. */
export interface Printed {
  number: string;
  unit: string;
}

const engineering: readonly [number, string][] = [
  [1e9, 'G'],
  [1e6, 'M'],
  [1e3, 'k'],
  [1, ''],
  [1e-3, 'm'],
  [1e-6, 'µ'],
  [1e-9, 'n'],
  [1e-12, 'p'],
];

const unprefixed = new Set(['', '1', '%', 'dB', 'deg', '°', '°C', 'K/W']);

/**
 * Prints an SI value with `digits` significant digits and an engineering prefix: 4700 Ω → "4.70 kΩ".
 * Plain ratios, decibels, degrees and bare numbers take no prefix. A minus sign is U+2212.
 */
export function printQuantity(value: number, unit: string, digits = 3): Printed {
  if (unprefixed.has(unit) || value === 0) return { number: printNumber(value, digits), unit: shown(unit) };
  const size = Math.abs(Number(value.toPrecision(digits)));
  const [scale, prefix] = engineering.find(([step]) => size >= step) ?? [1e-12, 'p'];
  return { number: printNumber(value / scale, digits), unit: prefix + unit };
}

/** Prints number and unit as one text with a no-break space: "4.70 kΩ". */
export function quantityText(value: number, unit: string, digits = 3): string {
  const printed = printQuantity(value, unit, digits);
  return printed.unit === '' ? printed.number : `${printed.number}\u00a0${printed.unit}`;
}

/** Prints a number with significant digits and without exponent between 10⁻⁶ and 10⁹. */
export function printNumber(value: number, digits = 3): string {
  const rounded = Number(value.toPrecision(digits));
  const size = Math.abs(rounded);
  if (size !== 0 && (size < 1e-6 || size >= 1e9)) return minus(value.toExponential(digits - 1));
  const decimals = size === 0 ? 0 : Math.max(0, digits - 1 - Math.floor(Math.log10(size)));
  return minus(rounded.toFixed(Math.min(decimals, 100)));
}

/** Prints with a fixed number of decimals and a proper minus sign. */
export function printDecimals(value: number, decimals: number): string {
  return minus(value.toFixed(decimals));
}

const minus = (text: string) => (/^-[0.]*$/.test(text) ? text.slice(1) : text.replaceAll('-', '\u2212'));
const shown = (unit: string) => (unit === '1' ? '' : unit === 'deg' ? '°' : unit);
