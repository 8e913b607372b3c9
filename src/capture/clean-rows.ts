import { initParser, type Schema } from 'udsv';
import type { Layout } from './layout.ts';
import { maxRows } from './limits.ts';
import { readRawNumber } from './numbers.ts';

/**
 * Reads rows of numbers that are all in order, at speed; null as soon as anything else turns up, for the
 * strict pass to look at. The library splits; every cell that it returns is checked, as it accepts ragged rows.
 */
export function readCleanRows(body: string, layout: Layout, cellsPerRow: number): Float64Array[] | null {
  const width = layout.numeric.length;
  const trailing = cellsPerRow - width;
  if (layout.width !== width || trailing > 1 || body.includes('"')) return null;
  // Runs of spaces become tabs below, so tabs of the file's own would pass for delimiters.
  if (layout.delimiter === ' ' && body.includes('\t')) return null;
  const rows = asRows(body, layout);
  if (hasBlankLine(rows) || !endsWithWholeRow(rows, cellsPerRow)) return null;
  const columns = growingColumns(width, estimatedRows(rows));
  const toNumber = layout.decimalMark === '.' ? readRawNumber : readRawCommaNumber;
  const accept = (cells: readonly string[]): boolean => {
    if (trailing === 1 && cells[width] !== '') return false;
    return columns.append(cells, toNumber);
  };
  let sound = true;
  const parser = initParser(schemaFor(rows, cellsPerRow));
  parser.stringArrs(rows.text, (cells) => {
    sound = accept(cells);
    return sound;
  });
  return sound ? columns.done() : null;
}

/** Text of whole rows with one delimiter between cells. */
interface Rows {
  text: string;
  delimiter: string;
  lineEnd: '\n' | '\r\n' | '\r';
}

function asRows(body: string, layout: Layout): Rows {
  const lineEnd = /\r\n|\n|\r/.exec(body)?.[0] === '\r\n' ? '\r\n' : body.includes('\n') ? '\n' : '\r';
  const whole = body.slice(0, endOfText(body));
  if (layout.delimiter !== ' ') return { text: whole, delimiter: layout.delimiter, lineEnd };
  const text = whole.replace(/^ +| +$/gm, '').replace(/ +/g, '\t');
  return { text, delimiter: '\t', lineEnd };
}

/** Offset behind the last character that is no space or line end; tabs stay, as they may delimit. */
function endOfText(body: string): number {
  let end = body.length;
  while (end > 0 && ' \r\n'.includes(body.charAt(end - 1))) end--;
  return end;
}

function hasBlankLine({ text }: Rows): boolean {
  if (text.includes('\n\n')) return true;
  return text.includes('\r') && (text.includes('\n\r') || text.includes('\r\r'));
}

/** The library never returns from a last row that is short of delimiters. */
function endsWithWholeRow({ text, delimiter, lineEnd }: Rows, cellsPerRow: number): boolean {
  const last = text.slice(text.lastIndexOf(lineEnd) + 1);
  return last.split(delimiter).length === cellsPerRow;
}

function estimatedRows({ text, lineEnd }: Rows): number {
  const sample = text.slice(0, 4096);
  const lines = sample.split(lineEnd).length;
  return Math.ceil((text.length / sample.length) * lines) + 16;
}

function schemaFor({ delimiter, lineEnd }: Rows, cellsPerRow: number): Schema {
  const cols = Array.from({ length: cellsPerRow }, (_, at) => ({
    name: String(at),
    type: 's' as const,
    repl: { empty: undefined, null: undefined, NaN: undefined },
  }));
  return { col: delimiter, row: lineEnd, encl: '', esc: '', trim: false, cols };
}

function readRawCommaNumber(cell: string): number {
  const comma = cell.indexOf(',');
  const isWhole = comma < 0 || /\d/.test(cell.charAt(comma + 1));
  return isWhole && !cell.includes('.') ? readRawNumber(cell.replace(',', '.')) : Number.NaN;
}

/** Columns that grow while rows come in; a row with anything but finite numbers is refused. */
function growingColumns(width: number, rowsExpected: number) {
  let room = Math.min(Math.max(rowsExpected, 16), maxRows);
  let columns = Array.from({ length: width }, () => new Float64Array(room));
  let rows = 0;

  const grow = () => {
    room *= 2;
    columns = columns.map((column) => {
      const larger = new Float64Array(room);
      larger.set(column);
      return larger;
    });
  };

  return {
    append(cells: readonly string[], toNumber: (cell: string) => number): boolean {
      if (rows >= maxRows) return false;
      if (rows === room) grow();
      for (let at = 0; at < width; at++) {
        const value = toNumber(cells[at] ?? '');
        if (!Number.isFinite(value)) return false;
        const column = columns[at];
        if (column) column[rows] = value;
      }
      rows++;
      return true;
    },
    done: (): Float64Array[] => columns.map((column) => column.slice(0, rows)),
  };
}
