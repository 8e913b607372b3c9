import { splitCells } from './cells.ts';
import type { Layout } from './layout.ts';
import { firstLines, spreadLines } from './lines.ts';
import { lastDigit, readNumber } from './numbers.ts';
import type { Table } from './table.ts';

/** Half a unit of the last printed digit of a time stamp, as a function of the stamp in the file's unit. */
export type HalfDigit = (stamp: number) => number;

const sampledRows = 192;

/**
 * Learns from sampled rows how finely a column is printed. Fixed decimals give one last digit for all
 * stamps, a fixed number of digits gives one for each decade; trailing zeros that were left off do not
 * matter, as the finest digit seen in a decade counts.
 */
export function halfDigitOf(table: Table, position: number): HalfDigit {
  const byDecade = new Map<number, number>();
  for (const cell of sampledCells(table, position)) {
    const value = readNumber(cell, table.layout.decimalMark);
    if (value === 0) continue;
    const decade = decadeOf(value);
    const digit = lastDigit(cell, table.layout.decimalMark);
    byDecade.set(decade, Math.min(digit, byDecade.get(decade) ?? digit));
  }
  return byDecadeOf([...byDecade].sort(([a], [b]) => a - b));
}

/** Stamps of one decade mostly follow each other, so the last answer is kept with its bounds. */
function byDecadeOf(decades: readonly (readonly [number, number])[]): HalfDigit {
  let from = 1;
  let to = 0;
  let half = 0;
  return (stamp) => {
    const size = Math.abs(stamp);
    if (size >= from && size < to) return half;
    const decade = decadeOf(stamp);
    half = nearestDigit(decades, decade) / 2;
    from = 10 ** decade;
    to = from * 10;
    return half;
  };
}

/** Zero counts as smaller than every decade. */
const decadeOf = (value: number) => Math.floor(Math.log10(Math.abs(value)) + 1e-12);

/** The last digit in a decade; where none was sampled there, the one of the next decade above or the last. */
function nearestDigit(decades: readonly (readonly [number, number])[], decade: number): number {
  for (const [at, digit] of decades) {
    if (at >= decade) return digit;
  }
  return decades.at(-1)?.[1] ?? 0;
}

function sampledCells(table: Table, position: number): string[] {
  const { text, start, layout } = table;
  const first = firstLines(text.slice(start), 64).map((line) => line.text);
  return [...first, ...spreadLines(text, start, sampledRows)].flatMap((line) =>
    cellAt(line, position, layout),
  );
}

function cellAt(line: string, position: number, layout: Layout): string[] {
  const cell = splitCells(line, layout.delimiter)[position]?.text ?? '';
  return Number.isFinite(readNumber(cell, layout.decimalMark)) ? [cell] : [];
}
