import { splitCells } from '../../capture/index.ts';
import { type Fault, type Place, type Problem, problemAt } from '../../problem/index.ts';
import { type PartLine, partColumns } from '../schemas/index.ts';
import { billMessages as messages } from './bill-messages.ts';

/** A line of a list of parts, and where each of its values stands. */
export interface PlacedPart {
  line: PartLine;
  placeOf(key: keyof PartLine): Place;
}

type Cells = ReturnType<typeof splitCells>;
type Delimiter = ',' | ';' | '\t';

interface Row {
  cells: Cells;
  number: number;
}

interface Sheet {
  file: string;
  /** What each column is, by its place. */
  columns: readonly (keyof PartLine)[];
}

/**
 * Reads a list of parts from CSV text: the first line names the columns, delimiters are commas, semicolons or tabs, and
 * quotes may enclose a cell within a line. Every fault is at its line and column.
 */
export function readPartsFile(text: string, file: string): { parts: PlacedPart[]; problems: Problem[] } {
  const { rows, problems } = rowsOf(text, file);
  const [head, ...rest] = rows;
  if (problems.length > 0) return { parts: [], problems };
  if (!head) return { parts: [], problems: [problemAt({ file, line: 1, column: 1 }, messages.empty())] };
  const faults = headFaults(head, file);
  if (faults.length > 0) return { parts: [], problems: faults };
  const columns = head.cells.flatMap((cell) => columnOf(cell.text) ?? []);
  const read = rest.map((row) => readRow(row, { file, columns }));
  return {
    parts: read.flatMap(({ part }) => part ?? []),
    problems: read.flatMap((result) => result.problems),
  };
}

/** Lines that are not blank; the delimiter is the one that the first of them has most of. */
function rowsOf(text: string, file: string): { rows: Row[]; problems: Problem[] } {
  const lines = text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\n|\r/)
    .map((content, index) => ({ content, number: index + 1 }))
    .filter(({ content }) => content.trim() !== '');
  const delimiter = delimiterOf(lines[0]?.content ?? '');
  const open = lines.filter(({ content }) => (content.split('"').length - 1) % 2 === 1);
  return {
    rows: lines.map(({ content, number }) => ({ cells: splitCells(content, delimiter), number })),
    problems: open.map(({ content, number }) =>
      problemAt({ file, line: number, column: content.lastIndexOf('"') + 1 }, messages.quotes()),
    ),
  };
}

function delimiterOf(head: string): Delimiter {
  const count = (mark: string) => head.split(mark).length;
  return ([',', ';', '\t'] as const).reduce((a, b) => (count(b) > count(a) ? b : a));
}

const columnOf = (name: string) => partColumns.find((column) => column === name.toLowerCase());

function headFaults({ cells, number }: Row, file: string): Problem[] {
  const at = (index: number, fault: Fault) =>
    problemAt({ file, line: number, column: cells[index]?.column ?? 1 }, fault);
  const names = cells.map(({ text }) => text.toLowerCase());
  const lacking = names.includes('part') ? [] : [at(0, messages.noPartColumn(partColumns))];
  const faulty = cells.flatMap(({ text }, index) => {
    if (!columnOf(text))
      return lacking.length > 0 ? [] : [at(index, messages.unknownColumn(text, partColumns))];
    return names.indexOf(text.toLowerCase()) < index ? [at(index, messages.columnTwice(text))] : [];
  });
  return [...lacking, ...faulty];
}

function readRow(
  { cells, number }: Row,
  { file, columns }: Sheet,
): { part: PlacedPart | null; problems: Problem[] } {
  const spot = (index: number): Place => ({ file, line: number, column: cells[index]?.column ?? 1 });
  const refuse = (index: number, fault: Fault) => ({ part: null, problems: [problemAt(spot(index), fault)] });
  const extra = cells.slice(columns.length).some(({ text }) => text !== '');
  if (cells.length < columns.length || extra) {
    return refuse(columns.length, messages.cells(cells.length, columns.length));
  }
  const textOf = (key: keyof PartLine) => cells[columns.indexOf(key)]?.text ?? '';
  const quantity = quantityOf(textOf('quantity'));
  if (textOf('part') === '') return refuse(columns.indexOf('part'), messages.noPart());
  if (quantity === null) return refuse(columns.indexOf('quantity'), messages.quantity(textOf('quantity')));
  const optional = (['value', 'price', 'supplier', 'record'] as const).filter((key) => textOf(key) !== '');
  const line: PartLine = {
    ...{ part: textOf('part'), quantity },
    ...Object.fromEntries(optional.map((key) => [key, textOf(key)])),
  };
  return { part: { line, placeOf: (key) => spot(columns.indexOf(key)) }, problems: [] };
}

/** One where nothing is written; a decimal comma counts as a point. */
function quantityOf(text: string): number | null {
  if (text === '') return 1;
  const value = Number(text.replace(',', '.'));
  return Number.isFinite(value) && value > 0 ? value : null;
}
