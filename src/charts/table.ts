import { thinnedNote } from './messages.ts';
import type { ChartTable, Readings } from './types.ts';

const mostRows = 24;
const none = '–';

/** Prints one reading of a column. */
export type Print = (value: number) => string;

/** A column of readings under a title. */
interface TableColumn {
  title: string;
  unit?: string;
  values: Readings;
  print: Print;
}

/** Lines over a common quantity. */
interface LinesOverX {
  x: { title: string; unit: string; print: Print };
  lines: readonly { name: string; x: Readings; values: Readings }[];
  value: { title: string; unit: string; print: Print };
}

/** A table of columns of equal length, thinned evenly by row when it is long; both ends stay. */
export function columnTable(
  columns: readonly TableColumn[],
  notes: readonly string[],
  source?: string,
): ChartTable {
  const total = Math.max(0, ...columns.map(({ values }) => values.length));
  const picked = evenly(total, mostRows);
  const thinned = picked.length < total ? [thinnedNote(picked.length, total, source)] : [];
  return {
    columns: columns.map(({ title, unit }) => ({
      title,
      ...(unit === undefined ? {} : { unit }),
      numeric: true,
    })),
    rows: picked.map((row) => columns.map(({ values, print }) => printed(values[row], print))),
    ...noted([...thinned, ...notes]),
  };
}

/** A table of lines: side by side when they share their readings' places, one after another when they do not. */
export function linesTable(
  { x, lines, value }: LinesOverX,
  notes: readonly string[],
  source?: string,
): ChartTable {
  const [first] = lines;
  if (first !== undefined && lines.every((line) => sameValues(line.x, first.x))) {
    const columns = lines.map(({ name, values }) => ({
      title: name,
      unit: value.unit,
      values,
      print: value.print,
    }));
    return columnTable([{ ...x, values: first.x }, ...columns], notes, source);
  }
  return longTable({ x, lines, value }, notes, source);
}

/** The note of a table, where there is something to say. */
export function noted(notes: readonly string[]): { note?: string } {
  return notes.length === 0 ? {} : { note: notes.join(' ') };
}

/** At most `most` whole numbers from 0 up to `total`, evenly spread, the first and the last among them. */
export function evenly(total: number, most: number): number[] {
  if (total <= most) return Array.from({ length: total }, (_, i) => i);
  return Array.from({ length: most }, (_, i) => Math.round((i * (total - 1)) / (most - 1)));
}

function longTable({ x, lines, value }: LinesOverX, notes: readonly string[], source?: string): ChartTable {
  const total = lines.reduce((sum, line) => sum + line.x.length, 0);
  const share = Math.max(2, Math.floor(mostRows / Math.max(1, lines.length)));
  const rows = lines.flatMap((line) =>
    evenly(line.x.length, share).map((i) => [
      line.name,
      printed(line.x[i], x.print),
      printed(line.values[i], value.print),
    ]),
  );
  const thinned = rows.length < total ? [thinnedNote(rows.length, total, source)] : [];
  return {
    columns: [
      { title: 'Line', numeric: false },
      { title: x.title, unit: x.unit, numeric: true },
      { title: value.title, unit: value.unit, numeric: true },
    ],
    rows,
    ...noted([...thinned, ...notes]),
  };
}

function printed(value: number | null | undefined, print: Print): string {
  return typeof value === 'number' && Number.isFinite(value) ? print(value) : none;
}

function sameValues(a: Readings, b: Readings): boolean {
  return a.length === b.length && Array.from(a).every((value, i) => value === b[i]);
}
