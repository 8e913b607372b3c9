import type { CaptureDeclaration } from './types.ts';

export type DecimalMark = NonNullable<CaptureDeclaration['decimalMark']>;

const patterns: Readonly<Record<DecimalMark, RegExp>> = {
  '.': /^[+\-\u2212]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+\-\u2212]?\d+)?$/u,
  ',': /^[+\-\u2212]?(?:\d+(?:,\d+)?|,\d+)(?:[eE][+\-\u2212]?\d+)?$/u,
};

/** Reads a trimmed cell as a decimal number; NaN where it is none, Infinity where it is too large. */
export function readNumber(cell: string, mark: DecimalMark): number {
  if (!patterns[mark].test(cell)) return Number.NaN;
  return Number(cell.replaceAll('\u2212', '-').replace(',', '.'));
}

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
