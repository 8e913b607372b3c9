import type { Dirent } from 'node:fs';
import { readdir, readFile, realpath, stat } from 'node:fs/promises';
import path from 'node:path';
import { type Fault, type Problem, problemAt } from '../problem/index.ts';
import { messages } from './messages.ts';

/** What a file of the journal is, told by its path. */
export type FilePart =
  | 'journal'
  | 'amplifier'
  | 'version'
  | 'unit'
  | 'log'
  | 'part'
  | 'decision'
  | 'listening'
  | 'comparison'
  | 'stray'
  | 'other';

const patterns: readonly [RegExp, FilePart][] = [
  [/^journal\.yaml$/, 'journal'],
  [/^amplifiers\/[^/]+\/index\.md$/, 'amplifier'],
  [/^amplifiers\/[^/]+\/[^/]+\.md$/, 'version'],
  [/^amplifiers\/[^/]+\/units\/(?!index\.md$)[^/]+\.md$/, 'unit'],
  [/^logs\/[^/]+\/index\.mdx?$/, 'log'],
  [/^parts\/[^/]+\.md$/, 'part'],
  [/^decisions\/[^/]+\.md$/, 'decision'],
  [/^listening\/[^/]+\.md$/, 'listening'],
  [/^comparisons\/[^/]+\.md$/, 'comparison'],
  [/^static\//, 'other'],
  [/\.(mdx?|markdown)$/i, 'stray'],
];

export function partOf(file: string): FilePart {
  return patterns.find(([pattern]) => pattern.test(file))?.[1] ?? 'other';
}

/** True for the files that are records. */
export function isRecord(file: string): boolean {
  return !['journal', 'stray', 'other'].includes(partOf(file));
}

/** A record's id: its path without extension and without `/index`. */
export function idOf(file: string): string {
  return file.replace(/\.mdx?$/, '').replace(/\/index$/, '');
}

/**
 * Lists every file below a journal's folder with forward slashes, in a fixed order. Hidden folders and
 * node_modules are left out; a link that leads out of the folder, to nothing or in a circle is an error and
 * is not followed.
 */
export async function listFiles(folder: string): Promise<{ files: string[]; problems: Problem[] }> {
  const root = await realpath(folder);
  const files: string[] = [];
  const problems: Problem[] = [];
  const walk = async (below: string, above: readonly string[]): Promise<void> => {
    const entries = await readdir(path.join(root, below), { withFileTypes: true });
    for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const file = below === '' ? entry.name : `${below}/${entry.name}`;
      const found = await lookAt(root, file, entry, above);
      if ('fault' in found) problems.push(problemAt({ file, line: 1, column: 1 }, found.fault));
      else if (found.type === 'file') files.push(file);
      else if (found.type === 'folder') await walk(file, [...above, found.target]);
    }
  };
  await walk('', [root]);
  return { files, problems };
}

type Found = { type: 'file' | 'other' } | { type: 'folder'; target: string } | { fault: Fault };

/** What an entry of a folder is; `above` are the real paths of the folders it stands in. */
async function lookAt(root: string, file: string, entry: Dirent, above: readonly string[]): Promise<Found> {
  if (entry.name.startsWith('.') || entry.name === 'node_modules') return { type: 'other' };
  const target = await realpath(path.join(root, file)).catch(() => null);
  if (target === null) return { fault: messages.deadLink() };
  if (!isInside(root, target)) return { fault: messages.leavesJournal(file) };
  if (above.includes(target)) return { fault: messages.linkCircle() };
  const info = await stat(target);
  if (info.isDirectory()) return { type: 'folder', target };
  return { type: info.isFile() ? 'file' : 'other' };
}

/** True when a path is the folder itself or lies below it. */
export function isInside(folder: string, target: string): boolean {
  const relative = path.relative(folder, target);
  return relative === '' || !(relative.startsWith('..') || path.isAbsolute(relative));
}

/**
 * Resolves a path written in a record against the record's own folder; null where it leads out of the journal.
 * Both paths are relative to the journal and use forward slashes.
 */
export function resolveInside(record: string, written: string): string | null {
  if (path.posix.isAbsolute(written) || /^[a-z]:/i.test(written) || written.includes('\\')) return null;
  const resolved = path.posix.normalize(path.posix.join(path.posix.dirname(record), written));
  return resolved.startsWith('../') || resolved === '..' ? null : resolved;
}

/** Larger than any record; a capture put in the place of one is told before it is read. */
const mostMegabytes = 4;

/** Reads a text file as UTF-8; a file that is too large or not UTF-8 is a problem. */
export async function readText(
  folder: string,
  file: string,
): Promise<{ text: string | null; problems: Problem[] }> {
  const place = { file, line: 1, column: 1 };
  try {
    const absolute = path.join(folder, file);
    const { size } = await stat(absolute);
    if (size > mostMegabytes * 1e6)
      return { text: null, problems: [problemAt(place, messages.tooLarge(mostMegabytes))] };
    const bytes = await readFile(absolute);
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), problems: [] };
  } catch (error) {
    const fault = error instanceof TypeError ? messages.notUtf8() : messages.unreadable(reasonOf(error));
    return { text: null, problems: [problemAt(place, fault)] };
  }
}

/** The system's reason for a failure in words, without a stack trace. */
export function reasonOf(error: unknown): string {
  const code = (error as NodeJS.ErrnoException | null)?.code ?? '';
  const words: Readonly<Record<string, string>> = {
    ENOENT: 'it does not exist.',
    EACCES: 'permission is denied.',
    EISDIR: 'it is a folder.',
    ENOTDIR: 'a part of its path is not a folder.',
  };
  return words[code] ?? (error instanceof Error ? error.message : String(error));
}
