import type { Delimiter } from './cells.ts';
import type { DecimalMark } from './numbers.ts';

/** A place in UTF-8 text, which ends with a line end, that moves on as cells are read. */
export interface Cursor {
  bytes: Uint8Array;
  /** The same as a string, where each of its letters is one byte. */
  text: string | null;
  at: number;
  /** What the digits passed last make as a whole number; rounded once they are too many. */
  whole: number;
}

const lineFeed = 10;
const carriageReturn = 13;
const space = 32;
const plus = 43;
const minus = 45;
const zero = 48;
const upperE = 69;
const lowerE = 101;

/** Whole numbers up to this one, and the powers of ten here, are held without rounding. */
const largestWhole = 2 ** 53;
const powersOfTen = Float64Array.from({ length: 23 }, (_, power) => Number(`1e${power}`));

/** Puts a cursor at the beginning of a text. */
export function cursorOn(text: string): Cursor {
  const bytes = new TextEncoder().encode(text);
  return { bytes, text: bytes.length === text.length ? text : null, at: 0, whole: 0 };
}

const decoder = new TextDecoder();

/** The text from a place up to the cursor. */
export function passedText({ bytes, text, at }: Cursor, from: number): string {
  return text === null ? decoder.decode(bytes.subarray(from, at)) : text.slice(from, at);
}

/**
 * Reads a number of sign, digits, decimal mark and exponent into a column and moves behind it; false where none stands,
 * or one that is written in another way. The value is what `Number` makes of the text, to the last bit.
 *
 * @source the quotient or product of two numbers held without rounding is itself rounded only once, as conversion from
 * decimals asks: W. D. Clinger, "How to read floating point numbers accurately", PLDI 1990, from memory.
 */
export function passNumber(cursor: Cursor, mark: DecimalMark, column: Float64Array, row: number): boolean {
  const { bytes, at: from } = cursor;
  passSign(cursor);
  const decimals = passMantissa(cursor, mark.charCodeAt(0));
  if (decimals < 0) return false;
  const mantissa = cursor.whole;
  const power = passExponent(cursor) - decimals;
  if (mantissa <= largestWhole && Math.abs(power) < powersOfTen.length) {
    const factor = powersOfTen[Math.abs(power)] ?? 1;
    const size = power < 0 ? mantissa / factor : mantissa * factor;
    column[row] = bytes[from] === minus ? -size : size;
    return true;
  }
  const text = passedText(cursor, from);
  const value = Number(mark === '.' ? text : text.replace(mark, '.'));
  column[row] = value;
  return Number.isFinite(value);
}

function passSign(cursor: Cursor): void {
  const code = cursor.bytes[cursor.at];
  if (code === minus || code === plus) cursor.at++;
}

/** Moves over digits with a decimal mark among them, and gives the number of decimals; −1 where digits are missing. */
function passMantissa(cursor: Cursor, mark: number): number {
  const first = cursor.at;
  cursor.whole = 0;
  passDigits(cursor);
  const point = cursor.at;
  if (cursor.bytes[point] !== mark) return point === first ? -1 : 0;
  cursor.at++;
  passDigits(cursor);
  return cursor.at === point + 1 ? -1 : cursor.at - point - 1;
}

/** Moves over digits, which follow those that `whole` is made of so far. */
function passDigits(cursor: Cursor): void {
  const { bytes } = cursor;
  let { at, whole } = cursor;
  for (; ; at++) {
    const digit = (bytes[at] ?? 0) - zero;
    if (digit < 0 || digit > 9) break;
    whole = 10 * whole + digit;
  }
  cursor.at = at;
  cursor.whole = whole;
}

/** Moves over an exponent and gives its value: 0 where none stands, NaN where it has no digits. */
function passExponent(cursor: Cursor): number {
  const { bytes, at } = cursor;
  if (bytes[at] !== lowerE && bytes[at] !== upperE) return 0;
  cursor.at++;
  passSign(cursor);
  const first = cursor.at;
  cursor.whole = 0;
  passDigits(cursor);
  if (cursor.at === first) return Number.NaN;
  return bytes[at + 1] === minus ? -cursor.whole : cursor.whole;
}

/** Moves over spaces. */
export function passSpaces(cursor: Cursor): void {
  while (cursor.bytes[cursor.at] === space) cursor.at++;
}

/** Moves behind a delimiter and the spaces before it; a run of spaces counts as one. False where none stands. */
export function passDelimiter(cursor: Cursor, delimiter: Delimiter): boolean {
  const from = cursor.at;
  passSpaces(cursor);
  if (delimiter === ' ') return cursor.at > from;
  if (cursor.bytes[cursor.at] !== delimiter.charCodeAt(0)) return false;
  cursor.at++;
  return true;
}

/** Moves behind the end of a line and the spaces before it. False where none stands. */
export function passLineEnd(cursor: Cursor): boolean {
  const { bytes } = cursor;
  passSpaces(cursor);
  const code = bytes[cursor.at];
  if (code !== lineFeed && code !== carriageReturn) return false;
  cursor.at++;
  if (code === carriageReturn && bytes[cursor.at] === lineFeed) cursor.at++;
  return true;
}

/** Moves to the delimiter or the end of the line that ends a cell. */
export function passCell(cursor: Cursor, delimiter: Delimiter): void {
  const { bytes } = cursor;
  const ends = [delimiter.charCodeAt(0), lineFeed, carriageReturn];
  while (!ends.includes(bytes[cursor.at] ?? lineFeed)) cursor.at++;
}
