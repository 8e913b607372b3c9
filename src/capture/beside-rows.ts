import type { Cell } from './cells.ts';
import type { Layout } from './layout.ts';
import type { Line } from './lines.ts';
import type { Note } from './notes.ts';

export interface BesideRows {
  notes: Note[];
  textColumns: number[];
}

/** Collects what stands in the columns beside the numbers: keys with their values, remarks, labels. */
export function besideReader(layout: Layout) {
  const notes: Note[] = [];
  const remarks = new Map<number, Note[]>();

  const readRemark = (at: number, key: string, line: Line) => {
    const column = remarks.get(at) ?? [];
    column.push({ key, value: '', line: line.number });
    remarks.set(at, column);
  };

  return {
    read(line: Line, cells: readonly Cell[]) {
      for (const { at, texts } of groupsBeside(cells, layout)) {
        const [key = '', ...values] = texts;
        if (values.length > 0) notes.push({ key, value: values.join(' '), line: line.number });
        else readRemark(at, key, line);
      }
    },
    finish(rows: number): BesideRows {
      const columns = [...remarks];
      const isLabel = (column: readonly Note[]) => column.length * 2 > rows;
      return {
        notes: [...notes, ...columns.flatMap(([, column]) => (isLabel(column) ? [] : column))],
        textColumns: columns.flatMap(([at, column]) => (isLabel(column) ? [at] : [])),
      };
    },
  };
}

interface Group {
  at: number;
  texts: string[];
}

/** Neighbouring filled cells outside the number columns, taken together. */
export function groupsBeside(cells: readonly Cell[], layout: Layout): Group[] {
  const groups: Group[] = [];
  let open: Group | null = null;
  cells.forEach(({ text }, at) => {
    if (text === '' || layout.numeric.includes(at)) {
      open = null;
    } else if (open) {
      open.texts.push(text);
    } else {
      open = { at, texts: [text] };
      groups.push(open);
    }
  });
  return groups;
}
