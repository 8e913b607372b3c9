import { groupsBeside } from './beside-rows.ts';
import type { Block } from './block.ts';
import { splitCells } from './cells.ts';
import { readCleanRows } from './clean-rows.ts';
import type { Heading } from './heading.ts';
import type { Layout } from './layout.ts';
import { maxColumns, maxLineLength } from './limits.ts';
import { lineNumbered } from './lines.ts';
import * as say from './messages.ts';
import type { Report, Spot } from './report.ts';
import { readStrictRows, type StrictRows } from './strict-rows.ts';

/** The block of numbers, in the file's own units. */
export interface Table extends Omit<StrictRows, 'lines'> {
  text: string;
  layout: Layout;
  firstLine: number;
  /** Offset of the first row in the text. */
  start: number;
  rows: number;
  /** Line of a row counted from 0. */
  lineOf(row: number): number;
  /** Where the cell at a position counted from 0 stands in a row. */
  spot(row: number, position: number): Spot;
}

/**
 * Reads the numbers from the block's first line to the end; null when any row has a fault. A row may fill as
 * many cells as the header does; or as the first row, where that has no header or a key with its value beside.
 */
export function readTable(
  text: string,
  block: Block,
  heading: Heading,
  layout: Layout,
  report: Report,
): Table | null {
  const { first } = block;
  const start = { line: first.number, column: 1 };
  if (first.text.length > maxLineLength) return report.at(start, say.lineTooLong(maxLineLength));
  const cells = splitCells(first.text, layout.delimiter).length;
  if (cells > maxColumns) return report.at(start, say.tooManyColumns(cells, maxColumns));
  const clean = readCleanRows(text.slice(first.start), layout, cells);
  const most = mostCells(first.text, heading, layout);
  const strict = clean ? null : readStrictRows(text, first, { layout, most }, report);
  const columns = clean ?? strict?.columns;
  return columns ? tableOf(text, block, layout, { ...noExtras, ...strict, columns }) : null;
}

function mostCells(firstRow: string, { names }: Heading, layout: Layout): number {
  const cells = splitCells(firstRow, layout.delimiter);
  const hasPair = groupsBeside(cells, layout).some(({ texts }) => texts.length > 1);
  return Math.max(layout.width, names?.cells.length ?? 0, names && !hasPair ? 0 : cells.length);
}

const noExtras = { notes: [], passedOver: [], textColumns: [], lines: null };

type ReadRows = Omit<StrictRows, 'lines'> & { lines: Int32Array | null };

function tableOf(text: string, { first }: Block, layout: Layout, read: ReadRows): Table {
  const { lines, ...rest } = read;
  const lineOf = (row: number) => lines?.[row] ?? first.number + row;
  return {
    ...rest,
    text,
    layout,
    firstLine: first.number,
    start: first.start,
    rows: read.columns[0]?.length ?? 0,
    lineOf,
    spot(row, position) {
      const line = lineOf(row);
      const cell = splitCells(lineNumbered(text, line).text, layout.delimiter)[position];
      return { line, column: cell?.column ?? 1 };
    },
  };
}
