import type { Problem } from '../../src/problem/index.ts';

/** Words of a fault in the program and not in the file. */
const ofProgram =
  /undefined|\[object |Maximum call stack|Cannot read propert|is not a function|TypeError|RangeError|\bat .+:\d+:\d+\)?$|node_modules/;

/** What a problem lacks: a place within its file, full sentences, a hint that is not empty; null for a sound one. */
export function unsound(problem: Problem, text: string | null): string | null {
  const { message, hint, rule, line, column } = problem;
  const said = [message, ...(hint === undefined ? [] : [hint])];
  if (rule === '' || said.some((sentence) => sentence.trim().length < 5)) return 'says nothing';
  if (said.some((sentence) => ofProgram.test(sentence.replace(/["“].*/s, ''))))
    return 'speaks of the program';
  if (!(Number.isInteger(line) && Number.isInteger(column) && line >= 1 && column >= 1))
    return 'has no place';
  return text === null || isWithin(text, line, column) ? null : `is outside the file, at ${line}:${column}`;
}

/** One line and one column more than there are is where something is missing. */
function isWithin(text: string, line: number, column: number): boolean {
  const lines = text.split(/\r\n|\n|\r/);
  return line <= lines.length + 1 && column <= (lines[line - 1] ?? '').length + 2;
}
