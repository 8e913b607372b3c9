import type { CaptureDeclaration } from './types.ts';

export type DecimalMark = NonNullable<CaptureDeclaration['decimalMark']>;

const patterns: Readonly<Record<DecimalMark, RegExp>> = {
  '.': /^[+\-\u2212]?(?:\d+\.?\d*|\.\d+)(?:[eE][+\-\u2212]?\d+)?$/u,
  ',': /^[+\-\u2212]?(?:\d+(?:,\d+)?|,\d+)(?:[eE][+\-\u2212]?\d+)?$/u,
};

/** Reads a trimmed cell as a decimal number; NaN where it is none, Infinity where it is too large. */
export function readNumber(cell: string, mark: DecimalMark): number {
  if (!patterns[mark].test(cell)) return Number.NaN;
  return Number(cell.replaceAll('\u2212', '-').replace(',', '.'));
}

/** Reads a raw cell at speed where its ends show plain digits, and strictly otherwise. */
export function readRawNumber(cell: string): number {
  const first = cell.charCodeAt(0);
  const last = cell.charCodeAt(cell.length - 1);
  const plain = first >= plus && first <= nine && last >= point && last <= nine;
  // A letter behind a leading zero is a hexadecimal, octal or binary prefix to Number().
  if (plain && !(first === zero && cell.charCodeAt(1) > nine)) return Number(cell);
  return readNumber(cell.replace(/^[ \t]+|[ \t]+$/g, ''), '.');
}

const plus = 43;
const point = 46;
const zero = 48;
const nine = 57;

const notFinite = /^[+-]?(?:nan|inf|infinity|∞)$/iu;

/** True for what instruments print where a number has no value. */
export function isNotFinite(cell: string, mark: DecimalMark): boolean {
  return notFinite.test(cell) || Math.abs(readNumber(cell, mark)) === Number.POSITIVE_INFINITY;
}

/** One unit of a printed number's last digit: 0.01 for "2.50", 1e-8 for "2.00E-06". */
export function lastDigit(cell: string, mark: DecimalMark): number {
  const [mantissa = '', exponent = '0'] = cell.replace('\u2212', '-').toLowerCase().split('e');
  const at = mantissa.indexOf(mark);
  const decimals = at < 0 ? 0 : mantissa.length - at - 1;
  return 10 ** (Number(exponent) - decimals);
}
