import { splitCells } from './cells.ts';
import { isKnownHeader } from './header-text.ts';
import { isDataLine, isTextLine, kindOf, type Layout } from './layout.ts';
import { type Line, linesFrom } from './lines.ts';

/** The lines before the numbers, and the line where they begin. */
export interface Block {
  head: Line[];
  first: Line;
}

/**
 * Finds the first row of numbers behind `skip` lines. A lone row of numbers above a line of text is left to
 * the preamble; a row with faults between the header and the first sound row belongs to the numbers.
 */
export function findBlock(text: string, layout: Layout, skip: number): Block | null {
  const head: Line[] = [];
  let lone: Block | null = null;
  for (const line of linesFrom(text)) {
    if (line.number > skip && isDataLine(line.text, layout)) {
      if (startsNumbers(text, line, head, layout)) return withFaultyRows({ head, first: line }, layout, skip);
      lone ??= { head: [...head], first: line };
    }
    head.push(line);
  }
  return lone && withFaultyRows(lone, layout, skip);
}

function startsNumbers(text: string, line: Line, head: readonly Line[], layout: Layout): boolean {
  const next = linesFrom(text, line.start, line.number);
  next.next();
  const follower = next.next();
  if (follower.done || !isTextLine(follower.value.text, layout)) return true;
  return head.slice(-50).some((above) => isCertainHeader(above.text, layout));
}

/** Moves the start up to the first faulty row below the header. */
function withFaultyRows(block: Block, layout: Layout, skip: number): Block {
  const { head } = block;
  const headerAt = head.findLastIndex(({ text }) => isTextLine(text, layout) && hasNames(text, layout));
  const certain = headerAt >= 0 && isCertainHeader(head[headerAt]?.text ?? '', layout);
  const from = Math.max(headerAt + 1, skip);
  const at = head.findIndex((line, i) => i >= from && isFaultyRow(line.text, layout, certain));
  const first = head[at];
  return first ? { head: head.slice(0, at), first } : block;
}

/**
 * A line with numbers below a header that names every column is a faulty row; otherwise only a line that
 * has the width of a row and begins with a number is, as no key of a preamble does.
 */
function isFaultyRow(line: string, layout: Layout, belowHeader: boolean): boolean {
  const cells = splitCells(line, layout.delimiter);
  const kinds = layout.numeric.map((at) => kindOf(cells[at]?.text ?? '', layout.decimalMark));
  if (belowHeader) return kinds.includes('n');
  return kinds[0] === 'n' && kinds.includes('t');
}

function hasNames(line: string, layout: Layout): boolean {
  return splitCells(line, layout.delimiter).length >= layout.width;
}

/** True for a line of text with words or units we know in all number columns, or in the first of three. */
function isCertainHeader(line: string, layout: Layout): boolean {
  if (!isTextLine(line, layout) || !hasNames(line, layout)) return false;
  const cells = splitCells(line, layout.delimiter);
  const known = layout.numeric.map((at) => isKnownHeader(cells[at]?.text ?? ''));
  return known.every(Boolean) || (known.length >= 3 && known[0] === true);
}
