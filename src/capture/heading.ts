import { type Cell, splitCells } from './cells.ts';
import { isKnownHeader } from './header-text.ts';
import { parseHeaderUnit } from './header-unit.ts';
import { isDataLine, kindOf, type Layout } from './layout.ts';
import type { Line } from './lines.ts';
import { type Note, noteOf, uncommented } from './notes.ts';
import type { TableReading } from './types.ts';

/** A header or unit row: its cells by position in the row. */
export interface HeadRow {
  line: number;
  cells: readonly Cell[];
}

/** What stands above the numbers. */
export interface Heading {
  names: HeadRow | null;
  units: HeadRow | null;
  notes: Note[];
  passedOver: TableReading['passedOver'];
  /** Lines of numbers that were taken for preamble. */
  strayNumbers: number[];
}

/** Finds the rows of names and of units above the numbers; everything else there is preamble. */
export function readHeading(head: readonly Line[], layout: Layout): Heading {
  const rows = rowsAboveNumbers(head, layout);
  const { names, units } = namesAndUnits(rows, layout);
  const lines = head.map((line) => ({ line, as: roleOfLine(line, names, units, layout) }));
  const preamble = lines.filter(({ as }) => as === 'preamble' || as === 'comment').map(({ line }) => line);
  return {
    names,
    units,
    notes: [...preamble.flatMap((line) => noteOf(line, layout) ?? []), ...stackedNotes(names, units, layout)],
    passedOver: lines.map(({ line, as }) => ({ line: line.number, text: shortened(line.text), as })),
    strayNumbers: preamble.filter(({ text }) => isDataLine(text, layout)).map((line) => line.number),
  };
}

const longestShown = 200;
const shortened = (text: string) => (text.length > longestShown ? `${text.slice(0, longestShown)}…` : text);

function roleOfLine(
  line: Line,
  names: HeadRow | null,
  units: HeadRow | null,
  layout: Layout,
): TableReading['passedOver'][number]['as'] {
  if (line.number === names?.line) return 'header';
  if (line.number === units?.line) return 'units';
  if (line.text.trim() === '') return 'blank';
  return uncommented(line.text, layout.delimiter) === null ? 'preamble' : 'comment';
}

const mostHeaderRows = 4;

/** Rows of text with a cell for each number column, directly above the numbers, from top to bottom. */
function rowsAboveNumbers(head: readonly Line[], layout: Layout): HeadRow[] {
  const rows: HeadRow[] = [];
  for (const line of head.toReversed()) {
    const row = headRow(line, layout) ?? numberedChannels(line, rows[0], layout);
    if (row && rows.length < mostHeaderRows) rows.unshift(row);
    else if (!row && !isSkippable(line, layout)) break;
  }
  return rows;
}

const isSkippable = (line: Line, layout: Layout) =>
  line.text.trim() === '' || uncommented(line.text, layout.delimiter) !== null;

function headRow(line: Line, layout: Layout): HeadRow | null {
  const bare = uncommented(line.text, layout.delimiter);
  const cells = alignedCells(bare ?? line.text, layout);
  const row = { line: line.number, cells };
  const isWide = layout.delimiter === ' ' ? cells.length === layout.width : cells.length >= layout.width;
  if (!isWide || !holdsNames(row, layout) || /[:=]/.test(cells[0]?.text ?? '')) return null;
  const mayBeNames = bare === null && (layout.width > 1 || /^\S{1,24}$/.test(line.text.trim()));
  return mayBeNames || knownCells(row, layout) > 0 ? row : null;
}

/**
 * Channels that are named by their numbers: a row such as "axis,1,2" directly above a unit row, or "time,1,2"
 * above the numbers.
 */
function numberedChannels(line: Line, below: HeadRow | undefined, layout: Layout): HeadRow | null {
  const cells = splitCells(line.text, layout.delimiter);
  const names = layout.numeric.map((at) => cells[at]?.text ?? '');
  const [axis = '', ...channels] = names;
  const isCounted = channels.length > 0 && channels.every((name, at) => name === String(at + 1));
  const isHeader = below ? isUnitRow(below, layout) : isKnownHeader(axis);
  return isCounted && isHeader && !isValue(axis) ? { line: line.number, cells } : null;
}

function holdsNames(row: HeadRow, layout: Layout): boolean {
  const texts = layout.numeric.map((at) => row.cells[at]?.text ?? '');
  const kinds = texts.map((text) => kindOf(text, layout.decimalMark));
  return kinds.includes('t') && !kinds.includes('n') && !texts.some(isValue);
}

/** "48 kHz" and "10:05" are values of a preamble; "2nd harmonic" is a name. */
const isValue = (text: string) => /^[+-]?\d+(?!\d|(?:st|nd|rd|th)\b)/i.test(text);

/** Where spaces separate cells, "Time (s)" is one name if that gives each column its name. */
function alignedCells(line: string, layout: Layout): Cell[] {
  const cells = splitCells(line, layout.delimiter);
  if (layout.delimiter !== ' ' || cells.length <= layout.width) return cells;
  const joined = [/[^ ]+(?: +[([{][^)\]}]*[)\]}])?/g, /[^ ]+(?: [^ ]+)*/g].map((pattern) =>
    [...line.matchAll(pattern)].map((match) => ({ text: match[0], column: match.index + 1 })),
  );
  return joined.find((tried) => tried.length === layout.width) ?? cells;
}

const knownCells = (row: HeadRow, layout: Layout) =>
  layout.numeric.filter((at) => isKnownHeader(row.cells[at]?.text ?? '')).length;

const unitCells = (row: HeadRow, layout: Layout) =>
  layout.numeric.filter((at) => parseHeaderUnit(row.cells[at]?.text ?? '') !== null).length;

interface NamesAndUnits {
  names: HeadRow | null;
  units: HeadRow | null;
}

/** The unit row is the last below another row that holds mostly units; the names stand above it. */
function namesAndUnits(rows: readonly HeadRow[], layout: Layout): NamesAndUnits {
  const unitsAt = rows.findLastIndex((row, at) => at > 0 && isUnitRow(row, layout));
  const names = bestNames(unitsAt < 0 ? rows : rows.slice(0, unitsAt), layout);
  const below = names ? rows[rows.indexOf(names) + 1] : undefined;
  const partly = below && unitCells(below, layout) > 0 ? below : null;
  return { names, units: rows[unitsAt] ?? partly };
}

function isUnitRow(row: HeadRow, layout: Layout): boolean {
  const filled = layout.numeric.filter((at) => (row.cells[at]?.text ?? '') !== '').length;
  return unitCells(row, layout) * 2 > filled;
}

/** The row with most words that we know, the lowest of equals. */
function bestNames(rows: readonly HeadRow[], layout: Layout): HeadRow | null {
  return rows.reduce<HeadRow | null>(
    (best, row) => (best && knownCells(best, layout) > knownCells(row, layout) ? best : row),
    null,
  );
}

/** Keys in the name row over values in the row below, outside the number columns. */
function stackedNotes(names: HeadRow | null, units: HeadRow | null, layout: Layout): Note[] {
  if (!names || !units) return [];
  return names.cells.flatMap(({ text: key }, at) => {
    const value = units.cells[at]?.text ?? '';
    return layout.numeric.includes(at) || key === '' || value === ''
      ? []
      : [{ key, value, line: units.line }];
  });
}
