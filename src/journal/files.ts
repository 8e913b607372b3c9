import type { Dirent } from 'node:fs';
import { readdir, readFile, realpath, stat } from 'node:fs/promises';
import path from 'node:path';
import { type Problem, problemAt } from '../problem/index.ts';
import { messages } from './messages.ts';

/** What a file of the journal is, told by its path. */
export type FilePart = 'journal' | 'amplifier' | 'version' | 'log' | 'stray' | 'other';

const patterns: readonly [RegExp, FilePart][] = [
  [/^journal\.yaml$/, 'journal'],
  [/^amplifiers\/[^/]+\/index\.md$/, 'amplifier'],
  [/^amplifiers\/[^/]+\/[^/]+\.md$/, 'version'],
  [/^logs\/[^/]+\/index\.mdx?$/, 'log'],
  [/^static\//, 'other'],
  [/\.mdx?$/, 'stray'],
];

export function partOf(file: string): FilePart {
  return patterns.find(([pattern]) => pattern.test(file))?.[1] ?? 'other';
}

/** A record's id: its path without extension and without `/index`. */
export function idOf(file: string): string {
  return file.replace(/\.mdx?$/, '').replace(/\/index$/, '');
}

/**
 * Lists every file below a journal's folder with forward slashes, in a fixed order. Hidden folders and
 * node_modules are left out; a link that leads out of the folder is an error and is not followed.
 */
export async function listFiles(folder: string): Promise<{ files: string[]; problems: Problem[] }> {
  const root = await realpath(folder);
  const files: string[] = [];
  const problems: Problem[] = [];
  const walk = async (below: string): Promise<void> => {
    const entries = await readdir(path.join(root, below), { withFileTypes: true });
    for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const file = below === '' ? entry.name : `${below}/${entry.name}`;
      const type = await typeOf(root, file, entry);
      if (type === 'outside')
        problems.push(problemAt({ file, line: 1, column: 1 }, messages.leavesJournal(file)));
      if (type === 'file') files.push(file);
      if (type === 'folder') await walk(file);
    }
  };
  await walk('');
  return { files, problems };
}

async function typeOf(
  root: string,
  file: string,
  entry: Dirent,
): Promise<'file' | 'folder' | 'outside' | 'skip'> {
  if (entry.name.startsWith('.') || entry.name === 'node_modules') return 'skip';
  if (!entry.isSymbolicLink()) return entry.isDirectory() ? 'folder' : 'file';
  const target = await realpath(path.join(root, file)).catch(() => null);
  if (target === null || !isInside(root, target)) return 'outside';
  return (await stat(target)).isDirectory() ? 'folder' : 'file';
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

/** Reads a text file as UTF-8; bytes that are not UTF-8 are a problem. */
export async function readText(
  folder: string,
  file: string,
): Promise<{ text: string | null; problems: Problem[] }> {
  const place = { file, line: 1, column: 1 };
  try {
    const bytes = await readFile(path.join(folder, file));
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
