import { maxLineLength } from './limits.ts';
import type { CaptureDeclaration } from './types.ts';

export type Delimiter = NonNullable<CaptureDeclaration['delimiter']>;

export interface Cell {
  /** Content without the spaces around it and without its quotes. */
  text: string;
  /** Column of the cell's first character in its line, counted from 1. */
  column: number;
}

/**
 * Splits one line strictly; a run of spaces counts as one delimiter, and quotes may enclose a cell.
 * A line over the length limit stays one cell.
 */
export function splitCells(line: string, delimiter: Delimiter): Cell[] {
  if (line.length > maxLineLength) return [{ text: line, column: 1 }];
  if (delimiter === ' ') return splitAtSpaces(line);
  return line.includes('"') ? splitQuoted(line, delimiter) : splitPlain(line, delimiter);
}

function splitPlain(line: string, delimiter: Delimiter): Cell[] {
  let start = 0;
  return line.split(delimiter).map((raw) => {
    const cell = cellOf(raw, start);
    start += raw.length + delimiter.length;
    return cell;
  });
}

function splitAtSpaces(line: string): Cell[] {
  return [...line.matchAll(/"(?:[^"]|"")*"|[^ ]+/g)].map((match) => cellOf(match[0], match.index));
}

function splitQuoted(line: string, delimiter: Delimiter): Cell[] {
  const cells: Cell[] = [];
  let start = 0;
  while (start <= line.length) {
    const end = endOfCell(line, start, delimiter);
    cells.push(cellOf(line.slice(start, end), start));
    start = end + delimiter.length;
  }
  return cells;
}

/** Offset just behind a cell: the next delimiter outside quotes, or the end of the line. */
function endOfCell(line: string, start: number, delimiter: Delimiter): number {
  const quoted = /^[ \t]*"(?:[^"]|"")*"[ ]*/.exec(line.slice(start));
  const end = line.indexOf(delimiter, start + (quoted?.[0].length ?? 0));
  return end < 0 ? line.length : end;
}

function cellOf(raw: string, start: number): Cell {
  const trimmed = raw.trim();
  const indent = trimmed === '' ? 0 : raw.length - raw.trimStart().length;
  const quoted = /^"((?:[^"]|"")*)"$/.exec(trimmed);
  return {
    text: quoted ? (quoted[1] ?? '').replaceAll('""', '"').trim() : trimmed,
    column: start + indent + 1,
  };
}
