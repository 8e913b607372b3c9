import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { styleText } from 'node:util';
import { byPlace, type Problem } from '../problem/index.ts';

/** How many problems there are of each severity. */
export interface Counts {
  error: number;
  warning: number;
}

export function countProblems(problems: readonly Problem[]): Counts {
  const error = problems.filter(({ severity }) => severity === 'error').length;
  return { error, warning: problems.length - error };
}

/** "2 errors, 1 warning", or "No problems." */
export function countText({ error, warning }: Counts): string {
  if (error + warning === 0) return 'No problems.';
  const words = [plural(error, 'error'), plural(warning, 'warning')].filter(Boolean);
  return `${words.join(', ')}.`;
}

const plural = (count: number, word: string) =>
  count === 0 ? '' : `${count} ${word}${count === 1 ? '' : 's'}`;

/**
 * Prints problems by file, each with its place, message, the line it stands in and how to mend it.
 * `folder` is what the problems' paths are relative to.
 */
export async function problemReport(problems: readonly Problem[], folder: string): Promise<string> {
  const sorted = [...problems].sort(byPlace);
  const texts = new Map<string, string[] | null>();
  for (const file of new Set(sorted.map((problem) => problem.file)))
    texts.set(file, await linesOf(folder, file));
  return sorted
    .map((problem, index) => {
      const heading = problem.file === sorted[index - 1]?.file ? '' : `${coloured('bold', problem.file)}\n`;
      return heading + problemText(problem, texts.get(problem.file) ?? null);
    })
    .join('\n');
}

function problemText(
  { rule, severity, line, column, message, hint }: Problem,
  lines: string[] | null,
): string {
  const word = coloured(severity === 'error' ? 'red' : 'yellow', severity);
  const heading = `  ${line}:${column}  ${word}  ${printable(message)}  [${rule}]`;
  const hints = hint ? [`    ${printable(hint)}`] : [];
  return [heading, ...codeFrame(lines, line, column), ...hints, ''].join('\n');
}

/** A text in colour where problems go to a terminal, unless NO_COLOR is set. */
const coloured = (style: 'red' | 'yellow' | 'bold', text: string) =>
  styleText(style, text, { stream: process.stderr });

/** A text without characters that would move the cursor or colour the terminal, each one space. */
const printable = (text: string) => text.replaceAll(/\p{Cc}/gu, ' ');

/** The line of a problem with a caret under its column; long lines are cut around it. */
function codeFrame(lines: string[] | null, line: number, column: number): string[] {
  const text = lines?.[line - 1];
  if (text === undefined || text.trim() === '') return [];
  const from = Math.max(0, column - 1 - 50);
  const shown = printable(text.slice(from, from + 100));
  const number = String(line);
  return [`    ${number} | ${shown}`, `    ${' '.repeat(number.length)} | ${' '.repeat(column - 1 - from)}^`];
}

/** Lines of a text file, or null where it cannot be shown as text. */
async function linesOf(folder: string, file: string): Promise<string[] | null> {
  const bytes = await readFile(path.resolve(folder, file)).catch(() => null);
  if (!bytes || bytes.length > 8 << 20 || bytes.includes(0)) return null;
  return bytes
    .toString('utf8')
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\n|\r/);
}
