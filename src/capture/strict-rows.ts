import type { Fault } from '../problem/index.ts';
import { besideReader } from './beside-rows.ts';
import { type Cell, splitCells } from './cells.ts';
import { isTextLine, type Layout, surplusNumber } from './layout.ts';
import { maxFaultyRows, maxLineLength, maxRows } from './limits.ts';
import { type Line, linesFrom } from './lines.ts';
import * as say from './messages.ts';
import { type Note, uncommented } from './notes.ts';
import { isNotFinite, readNumber } from './numbers.ts';
import type { Report, Spot } from './report.ts';
import type { TableReading } from './types.ts';

/** Rows of numbers with what stood between and beside them. */
export interface StrictRows {
  columns: Float64Array[];
  /** Line of each row. */
  lines: Int32Array;
  notes: Note[];
  passedOver: TableReading['passedOver'];
  /** Positions of columns that hold text in most rows, counted from 0. */
  textColumns: number[];
}

export interface RowShape {
  layout: Layout;
  /** Cells that a row may fill, with those beside the numbers. */
  most: number;
}

/** Reads row by row and reports each fault at its cell; null when there is any. */
export function readStrictRows(
  text: string,
  first: Line,
  { layout, most }: RowShape,
  report: Report,
): StrictRows | null {
  const reader = rowReader({ layout, most });
  const waiting: Line[] = [];
  for (const line of linesFrom(text, first.start, first.number)) {
    if (isBetweenRows(line, layout)) {
      waiting.push(line);
      continue;
    }
    for (const between of waiting.splice(0)) {
      reader.refuse({ line: between.number, column: 1 }, gapFault(between));
    }
    reader.read(line);
    if (reader.isFull()) return report.at({ line: line.number, column: 1 }, say.tooManyRows(maxRows));
  }
  return reader.finish(waiting, report);
}

/** Blank lines and comments are fine behind the last row only. */
const isBetweenRows = (line: Line, layout: Layout) =>
  line.text.trim() === '' || uncommented(line.text, layout.delimiter) !== null;

const gapFault = (line: Line): Fault => (line.text.trim() === '' ? say.blankLine() : say.textRow(line.text));

function rowReader({ layout, most }: RowShape) {
  const values: number[][] = layout.numeric.map(() => []);
  const lines: number[] = [];
  const faults: { spot: Spot; fault: Fault }[] = [];
  const beside = besideReader(layout);
  let faultyRows = 0;

  const refuse = (spot: Spot, fault: Fault) => {
    faultyRows++;
    if (faultyRows <= maxFaultyRows + 1) faults.push({ spot, fault });
  };

  const accept = (line: Line, cells: readonly Cell[]) => {
    lines.push(line.number);
    layout.numeric.forEach((at, k) => {
      values[k]?.push(numberAt(cells, at, layout));
    });
    if (cells.length > layout.numeric.length) beside.read(line, cells);
  };

  return {
    refuse,
    read(line: Line) {
      if (line.text.length > maxLineLength) {
        refuse({ line: line.number, column: 1 }, say.lineTooLong(maxLineLength));
        return;
      }
      const cells = splitCells(line.text, layout.delimiter);
      const found = faultOfRow(line.text, cells, { layout, most });
      if (found) refuse({ line: line.number, column: found.column }, found.fault);
      else accept(line, cells);
    },
    isFull: () => lines.length > maxRows,
    finish(footer: readonly Line[], report: Report): StrictRows | null {
      for (const { spot, fault } of faults.slice(0, maxFaultyRows)) report.at(spot, fault);
      const next = faults[maxFaultyRows];
      if (next) report.at(next.spot, say.moreFaults(faultyRows - maxFaultyRows));
      if (faultyRows > 0) return null;
      const columns = values.map((column) => Float64Array.from(column));
      const passedOver = footer.map(passedLine);
      return { columns, lines: Int32Array.from(lines), passedOver, ...beside.finish(lines.length) };
    },
  };
}

function passedLine({ number, text }: Line): TableReading['passedOver'][number] {
  return { line: number, text, as: text.trim() === '' ? 'blank' : 'comment' };
}

interface RowFault {
  column: number;
  fault: Fault;
}

/** The first fault of a row, at its cell; null for a sound row. */
function faultOfRow(line: string, cells: readonly Cell[], { layout, most }: RowShape): RowFault | null {
  const faulty = layout.numeric.find((at) => !Number.isFinite(numberAt(cells, at, layout)));
  const surplus = surplusNumber(cells, layout) ?? cells.slice(most).find((cell) => cell.text !== '') ?? null;
  if (faulty === undefined && !surplus) return null;
  if (layout.numeric.length > 1 && isTextLine(line, layout)) return { column: 1, fault: say.textRow(line) };
  if (surplus || cells.length < layout.width) return faultOfCount(line, cells, surplus, layout);
  return faultOfCell(cells[faulty ?? 0], faulty ?? 0, layout);
}

function faultOfCount(line: string, cells: readonly Cell[], surplus: Cell | null, layout: Layout): RowFault {
  const filled = cells.findLastIndex((cell) => cell.text !== '') + 1;
  const column = surplus?.column ?? line.trimEnd().length + 1;
  return { column, fault: say.fieldCount(filled, layout.width, line) };
}

const numberAt = (cells: readonly Cell[], at: number, layout: Layout) =>
  readNumber(cells[at]?.text ?? '', layout.decimalMark);

function faultOfCell(cell: Cell | undefined, at: number, layout: Layout): RowFault {
  const { text, column } = cell ?? { text: '', column: 1 };
  if (text === '') return { column, fault: say.missingValue(at + 1) };
  if (isNotFinite(text, layout.decimalMark)) return { column, fault: say.notFinite(text, at + 1) };
  return { column, fault: say.notANumber(text, at + 1, layout.decimalMark) };
}
