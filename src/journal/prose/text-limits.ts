import type { Fault } from '../../problem/index.ts';
import { proseMessages as say } from './messages.ts';

/** What keeps a text from being rendered, and where in it; line counted from 0, column from 1. */
export interface TextFault {
  line: number;
  column: number;
  fault: Fault;
}

const mostCharacters = 500_000;
const mostInLine = 20_000;
const mostNested = 50;
const mostTableColumns = 100;
/** Characters that a search for the ends of code, formulas and prices may pass in one paragraph. */
const mostLooks = 20_000_000;

const listMarker = /^[ \t]*(?:[*+-]|\d{1,9}[.)])[ \t]/;
const nested = new RegExp(String.raw`^(?:[ \t]*(?:>|(?:[*+-]|\d{1,9}[.)])(?=[ \t]))){${mostNested + 1}}`);
const rule = /^[ \t]*(?:[-*_][ \t]*)+$/;

/**
 * Looks for what would take a renderer of Markdown out of all proportion to its length, before anything is built of it:
 * very long lines, deep nesting, very wide tables, and paragraphs full of marks that look for their other end.
 */
export function textFault(body: string): TextFault | null {
  if (body.length > mostCharacters) return at(0, say.textTooLong(body.length, mostCharacters));
  const lines = body.split('\n');
  let open = 0;
  let begin = 0;
  for (const [index, line] of lines.entries()) {
    open += fencesIn(line);
    const fault = lineFault(line, open);
    if (fault) return at(index, fault);
    if (line.trim() !== '' && index < lines.length - 1) continue;
    const paragraph = paragraphFault(lines.slice(begin, index + 1).join('\n'));
    if (paragraph) return at(begin, paragraph);
    begin = index + 1;
  }
  return null;
}

const at = (line: number, fault: Fault): TextFault => ({ line, column: 1, fault });

/** One where a container of a directive begins, minus one where one may end. */
function fencesIn(line: string): number {
  if (!/^[ \t>]*:{3,}/.test(line)) return 0;
  return /:{3,}[ \t]*$/.test(line) ? -1 : 1;
}

function lineFault(line: string, open: number): Fault | null {
  if (line.length > mostInLine) return say.lineTooLong(line.length, mostInLine);
  const indent = line.search(/[^ \t]/);
  const isDeep =
    (nested.test(line) && !rule.test(line)) || (indent > 4 * mostNested && listMarker.test(line));
  if (isDeep || open > mostNested) return say.textTooDeep(mostNested);
  const columns = /^[\s|:>-]+$/.test(line) ? line.split('|').length : 0;
  return columns > mostTableColumns ? say.tableTooWide(mostTableColumns) : null;
}

function paragraphFault(text: string): Fault | null {
  if (deepestBracket(text) > mostNested) return say.textTooDeep(mostNested);
  return looks(text, /`+/g, () => 1) + looks(text, /\$+/g, eachSign) > mostLooks ? say.tooManyMarks() : null;
}

function deepestBracket(text: string): number {
  let [depth, deepest] = [0, 0];
  for (const { 0: bracket } of text.matchAll(/[[\]]/g)) {
    depth = Math.max(0, depth + (bracket === '[' ? 1 : -1));
    deepest = Math.max(deepest, depth);
  }
  return deepest;
}

/** Every dollar sign of a run is looked at as a price as well. */
const eachSign = (run: string) => run.length + 1;

/** Characters between each run of marks and the next of its length, or the end, times how often they are passed. */
function looks(text: string, runs: RegExp, times: (run: string) => number): number {
  const next = new Map<number, number>();
  let passed = 0;
  for (const { 0: run, index } of [...text.matchAll(runs)].reverse()) {
    passed += ((next.get(run.length) ?? text.length) - index) * times(run);
    next.set(run.length, index);
  }
  return passed;
}
