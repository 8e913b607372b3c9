import { type Cell, type Delimiter, splitCells } from './cells.ts';
import { type DecimalMark, isNotFinite, readNumber } from './numbers.ts';

/** How numbers and cells are written. */
export interface Dialect {
  delimiter: Delimiter;
  decimalMark: DecimalMark;
}

/** Which cells of a row hold the numbers. */
export interface Layout extends Dialect {
  /** Positions of the number columns in a row, counted from 0. */
  numeric: readonly number[];
  /** Cells that a row needs in order to reach its last number. */
  width: number;
}

/** What a cell holds: a number (or a word for one without value), text, or nothing. */
export type CellKind = 'n' | 't' | 'e';

export function kindOf(cell: string, mark: DecimalMark): CellKind {
  if (cell === '') return 'e';
  return Number.isNaN(readNumber(cell, mark)) && !isNotFinite(cell, mark) ? 't' : 'n';
}

/** The kinds of a row's cells as one word, without the empty cells at its end: "nn", "tn", "een". */
export function patternOf(cells: readonly Cell[], mark: DecimalMark): string {
  return cells
    .map((cell) => kindOf(cell.text, mark))
    .join('')
    .replace(/e+$/, '');
}

/** The layout that a pattern of a row stands for. */
export function layoutOf(dialect: Dialect, pattern: string): Layout {
  const numeric = [...pattern].flatMap((kind, position) => (kind === 'n' ? [position] : []));
  return { ...dialect, numeric, width: (numeric.at(-1) ?? -1) + 1 };
}

/** True when every number column holds a number and nothing else in the line does, but beside a text. */
export function isDataLine(line: string, layout: Layout): boolean {
  const cells = splitCells(line, layout.delimiter);
  return cells.length >= layout.width && surplusNumber(cells, layout) === null && allNumbers(cells, layout);
}

function allNumbers(cells: readonly Cell[], layout: Layout): boolean {
  return layout.numeric.every((at) => kindOf(cells[at]?.text ?? '', layout.decimalMark) === 'n');
}

/** True when no number column holds a number and at least one holds text. */
export function isTextLine(line: string, layout: Layout): boolean {
  const cells = splitCells(line, layout.delimiter);
  const kinds = layout.numeric.map((at) => kindOf(cells[at]?.text ?? '', layout.decimalMark));
  return kinds.includes('t') && !kinds.includes('n');
}

/** The first number outside the number columns that has no text before it to be the value of, if any. */
export function surplusNumber(cells: readonly Cell[], layout: Layout): Cell | null {
  if (cells.length === layout.width && layout.numeric.length === layout.width) return null;
  const surplus = cells.find(
    (cell, at) =>
      !layout.numeric.includes(at) &&
      kindOf(cell.text, layout.decimalMark) === 'n' &&
      !isKey(cells, at - 1, layout),
  );
  return surplus ?? null;
}

const isKey = (cells: readonly Cell[], at: number, layout: Layout): boolean =>
  !layout.numeric.includes(at) && kindOf(cells[at]?.text ?? '', layout.decimalMark) === 't';
