import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { byPlace, type Problem } from '../problem/index.ts';

/** A problem with the line it stands in and a caret under its column; no lines where they cannot be shown. */
export interface FramedProblem {
  problem: Problem;
  frame: string[];
}

/** Problems in order of place, each with its code frame; `folder` is what their paths are relative to. */
export async function framed(problems: readonly Problem[], folder: string): Promise<FramedProblem[]> {
  const sorted = [...problems].sort(byPlace);
  const texts = new Map<string, string[] | null>();
  for (const file of new Set(sorted.map((problem) => problem.file)))
    texts.set(file, await linesOf(folder, file));
  return sorted.map((problem) => ({ problem, frame: codeFrame(texts.get(problem.file) ?? null, problem) }));
}

/** A text without characters that would move the cursor or colour the terminal, each one space. */
export const printable = (text: string) => text.replaceAll(/\p{Cc}/gu, ' ');

/** The line of a problem with a caret under its column; long lines are cut around it. */
function codeFrame(lines: string[] | null, { line, column }: Problem): string[] {
  const text = lines?.[line - 1];
  if (text === undefined || text.trim() === '') return [];
  const from = Math.max(0, column - 1 - 50);
  const shown = printable(text.slice(from, from + 100));
  const number = String(line);
  return [`${number} | ${shown}`, `${' '.repeat(number.length)} | ${' '.repeat(column - 1 - from)}^`];
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
