import { readFile, stat } from 'node:fs/promises';
import path from 'node:path';
import { type Problem, problemAt } from '../../problem/index.ts';
import { drawingFault } from './drawing-guard.ts';
import { drawingMessages } from './drawing-messages.ts';

/** Largest drawing, in bytes: 4 MB. */
const mostBytes = 4e6;

export const isDrawing = (file: string) => /\.svgz?$/i.test(file);

/** What keeps a drawing of the journal from being published, at its place in it. */
export async function drawingProblems(root: string, file: string): Promise<Problem[]> {
  const top = { file, line: 1, column: 1 };
  const absolute = path.join(root, file);
  const { size } = await stat(absolute);
  if (size > mostBytes) return [problemAt(top, drawingMessages.tooLarge(size, mostBytes))];
  const text = await readFile(absolute, 'utf8');
  if (!/<svg[\s>]/i.test(text)) return [problemAt(top, drawingMessages.broken())];
  const found = drawingFault(text);
  if (!found) return [];
  const before = text.slice(0, found.offset).split(/\r\n|\n|\r/);
  const place = { file, line: before.length, column: (before.at(-1) ?? '').length + 1 };
  return [problemAt(place, found.fault)];
}
