import type { Layout } from './layout.ts';
import { maxRows } from './limits.ts';
import { readNumber } from './numbers.ts';
import {
  type Cursor,
  cursorOn,
  passCell,
  passDelimiter,
  passedText,
  passLineEnd,
  passNumber,
  passSpaces,
} from './scan.ts';

/**
 * Reads rows of numbers that are all in order, at speed; null as soon as anything else turns up, for the strict pass to
 * look at.
 */
export function readCleanRows(body: string, layout: Layout, cellsPerRow: number): Float64Array[] | null {
  const { delimiter, decimalMark, width, numeric } = layout;
  const trailing = cellsPerRow - width;
  const isPlain = numeric.length === width && delimiter !== decimalMark;
  if (!isPlain || trailing < 0 || trailing > 1) return null;
  const cursor = cursorOn(wholeRows(body));
  const { length } = cursor.bytes;
  // A number and what follows it take two bytes at least.
  let room = Math.min(maxRows, estimatedRows(length, body), Math.ceil(length / (2 * width)));
  let columns: Float64Array[] = Array.from({ length: width }, () => new Float64Array(room));
  let rows = 0;
  for (; cursor.at < length; rows++) {
    if (rows === maxRows) return null;
    if (rows === room) {
      room *= 2;
      columns = columns.map((column) => enlarged(column, room));
    }
    if (!passNumbers(cursor, layout, columns, rows)) return null;
    if (trailing === 1 && !passDelimiter(cursor, delimiter)) return null;
    if (!passLineEnd(cursor)) return null;
  }
  return columns.map((column) => column.subarray(0, rows));
}

/** Reads the numbers of a row into its place in the columns; false where one is missing. */
function passNumbers(cursor: Cursor, layout: Layout, columns: readonly Float64Array[], row: number): boolean {
  for (let cell = 0; cell < columns.length; cell++) {
    const column = columns[cell];
    if (column === undefined || (cell > 0 && !passDelimiter(cursor, layout.delimiter))) return false;
    passSpaces(cursor);
    const from = cursor.at;
    if (passNumber(cursor, layout.decimalMark, column, row)) continue;
    cursor.at = from;
    column[row] = numberOfOtherForm(cursor, layout);
    if (!Number.isFinite(column[row])) return false;
  }
  return true;
}

/** Reads a cell whose number is written in one of the less usual ways; NaN where it holds none. */
function numberOfOtherForm(cursor: Cursor, { delimiter, decimalMark }: Layout): number {
  const from = cursor.at;
  passCell(cursor, delimiter);
  return readNumber(passedText(cursor, from).trim(), decimalMark);
}

/** The text up to the end of its last row's line; blank lines may follow there. */
function wholeRows(body: string): string {
  const end = endOfText(body);
  const lineEnd = body.indexOf('\n', end);
  return lineEnd < 0 ? `${body.slice(0, end)}\n` : body.slice(0, lineEnd + 1);
}

/** Offset behind the last character that is no space or line end; tabs stay, as they may delimit. */
function endOfText(body: string): number {
  let end = body.length;
  while (end > 0 && ' \r\n'.includes(body.charAt(end - 1))) end--;
  return end;
}

function estimatedRows(length: number, body: string): number {
  const sample = body.slice(0, 4096);
  const lines = sample.split(/\r\n|\n|\r/).length;
  return Math.ceil((length / Math.max(1, sample.length)) * lines) + 16;
}

function enlarged(column: Float64Array, room: number): Float64Array {
  const larger = new Float64Array(room);
  larger.set(column);
  return larger;
}
