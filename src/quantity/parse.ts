import { type Fault, nearestNames } from '../problem/index.ts';
import { aQuantity, exampleOf } from './examples.ts';
import { type Dimension, parseUnit, type Unit, unitNames } from './units.ts';

/** A quantity in SI units, with the text it was read from. */
export interface Quantity {
  value: number;
  unit: string;
  dimension: Dimension;
  text: string;
}

export type QuantityReading = { quantity: Quantity } | { fault: Fault };

const number = String.raw`[+\-\u2212]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+\-\u2212]?\d+)?`;
const plain = new RegExp(`^(${number})\\s*(.*)$`, 'su');
/** Letter in place of the decimal point or as suffix, IEC 60062: 4k7, 4R7, 2M2, 100n, 2u2. */
const coded = /^([+\-\u2212]?)(\d+)([RrkKMmunpµμ])(\d*)$/u;

const codedDimensions: Partial<Record<Dimension, string>> = {
  resistance: 'Ω',
  capacitance: 'F',
  inductance: 'H',
};

/**
 * Reads a quantity as people write it (`5 kΩ`, `4k7`, `48 mA`, `-1.5 dB`, `43 %`) into SI.
 * A wrong dimension, a missing or unknown unit or a decimal comma is a fault that says what was expected.
 * A ratio may stand without a unit; everything else needs one.
 */
export function parseQuantity(text: string, expected: Dimension): QuantityReading {
  const written = text.trim();
  const code = readCode(written, expected);
  if (code) return finite(code);
  if (/^[+\-\u2212]?\d+,\d/u.test(written)) return { fault: decimalComma(written) };
  const match = plain.exec(written);
  if (!match) return { fault: notAQuantity(written, expected) };
  return withUnit(written, toNumber(match[1] ?? ''), (match[2] ?? '').trim(), expected);
}

function withUnit(text: string, value: number, unitText: string, expected: Dimension): QuantityReading {
  if (unitText === '' && expected === 'ratio') {
    return finite({ value, unit: '1', dimension: 'ratio', text });
  }
  if (unitText === '') return { fault: unitMissing(text, expected) };
  const unit = parseUnit(unitText);
  if (!unit) return { fault: unknownUnit(text, unitText, expected) };
  if (unit.dimension !== expected) return { fault: wrongDimension(text, unit, expected) };
  return finite({ value: round(value * unit.factor), unit: unit.si, dimension: unit.dimension, text });
}

const finite = (quantity: Quantity): QuantityReading =>
  Number.isFinite(quantity.value) ? { quantity } : { fault: tooLarge(quantity.text) };

function readCode(text: string, expected: Dimension): Quantity | null {
  const si = codedDimensions[expected];
  const match = coded.exec(text);
  if (!si || !match) return null;
  const [, sign = '', whole = '', letter = '', fraction = ''] = match;
  const prefix = /[Rr]/.test(letter) ? 1 : parseUnit(`${letter}${si}`)?.factor;
  if (prefix === undefined || (/[Rr]/.test(letter) && si !== 'Ω')) return null;
  const value = toNumber(`${sign}${whole}.${fraction || '0'}`) * prefix;
  return { value: round(value), unit: si, dimension: expected, text };
}

const toNumber = (text: string) => Number(text.replaceAll('\u2212', '-'));

/** Removes the last-digit noise of multiplying a decimal number by a prefix. */
const round = (value: number) => Number(value.toPrecision(15));

const rule = 'quantity';

const decimalComma = (text: string): Fault => ({
  rule,
  message: `"${text}" has a comma where a decimal point is expected.`,
  hint: `Write ${text.replace(',', '.')}.`,
});

const notAQuantity = (text: string, expected: Dimension): Fault => ({
  rule,
  message: `"${text}" is not ${aQuantity(expected)}.`,
  hint: `Write a number and a unit, for example ${exampleOf(expected)}.`,
});

const tooLarge = (text: string): Fault => ({
  rule,
  message: `"${text}" is a larger number than can be computed with.`,
  hint: 'Check the exponent, and the digits before the unit.',
});

const unitMissing = (text: string, expected: Dimension): Fault => ({
  rule,
  message: `"${text}" has no unit; ${aQuantity(expected)} is expected here.`,
  hint: `Write it with its unit, for example ${exampleOf(expected)}.`,
});

const wrongDimension = (text: string, unit: Unit, expected: Dimension): Fault => ({
  rule,
  message: `"${text}" is ${aQuantity(unit.dimension)}, but ${aQuantity(expected)} is expected here.`,
  hint: `Write a value such as ${exampleOf(expected)}.`,
});

function unknownUnit(text: string, unit: string, expected: Dimension): Fault {
  const near = nearestNames(unit, unitNames());
  const hint =
    near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `An example is ${exampleOf(expected)}.`;
  return { rule, message: `"${text}" has the unit "${unit}", which is not known.`, hint };
}
