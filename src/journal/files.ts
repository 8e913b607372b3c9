import type { Dirent } from 'node:fs';
import { readdir, readFile, realpath, stat } from 'node:fs/promises';
import path from 'node:path';
import { type Fault, type Problem, problemAt } from '../problem/index.ts';
import { fileMessages } from './file-messages.ts';
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
  | 'page'
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
  [/^pages\/(?!index\.md$)[^/]+\.md$/, 'page'],
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

/** Files of one journal; a thousand logs with their captures and pictures have some ten thousand. */
const mostFiles = 50_000;

/** The files of a journal. */
export interface Listing {
  files: string[];
  /** What changes with every write of a file, so that within a process it need not be read again to see that. */
  stamps: Map<string, string>;
  problems: Problem[];
}

/**
 * Lists every file below a journal's folder with forward slashes, in a fixed order. Hidden names and node_modules are left
 * out but for those below static, which are published as they are. A link that leads out of the folder, to something
 * hidden, to nothing or in a circle is an error and is not followed.
 */
export async function listFiles(folder: string, most = mostFiles): Promise<Listing> {
  const root = await realpath(folder);
  const stamps = new Map<string, string>();
  const problems: Problem[] = [];
  const note = (file: string, fault: Fault) => problems.push(problemAt({ file, line: 1, column: 1 }, fault));
  const take = async (file: string, entry: Dirent, above: readonly string[]): Promise<void> => {
    const found = await lookAt(root, file, entry, above);
    if ('fault' in found) note(file, found.fault);
    else if (found.type === 'file') stamps.set(file, found.stamp);
    else if (found.type === 'folder') await walk(file, [...above, found.target]);
  };
  const walk = async (below: string, above: readonly string[]): Promise<void> => {
    const entries = await readdir(path.join(root, below), { withFileTypes: true }).catch(reasonOf);
    if (typeof entries === 'string') {
      note(below, messages.unreadable(entries));
      return;
    }
    for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
      if (stamps.size > most) return;
      await take(below === '' ? entry.name : `${below}/${entry.name}`, entry, above);
    }
  };
  await walk('', [root]);
  const files = [...stamps.keys()];
  const [beyond] = files.splice(most);
  if (beyond !== undefined) note(beyond, fileMessages.tooManyFiles(most));
  return { files, stamps, problems };
}

type Found =
  | { type: 'file'; stamp: string }
  | { type: 'other' }
  | { type: 'folder'; target: string }
  | { fault: Fault };

/** What an entry of a folder is; `above` are the real paths of the folders it stands in. */
async function lookAt(root: string, file: string, entry: Dirent, above: readonly string[]): Promise<Found> {
  if (!file.startsWith('static/') && isHidden(entry.name)) return { type: 'other' };
  const target = await realpath(path.join(root, file)).catch(() => null);
  if (target === null) return { fault: messages.deadLink() };
  if (!isInside(root, target)) return { fault: messages.leavesJournal(file) };
  if (above.includes(target)) return { fault: messages.linkCircle() };
  const inside = path.relative(root, target).split(path.sep);
  if (inside[0] !== 'static' && inside.some(isHidden)) return { fault: fileMessages.hiddenLink() };
  const info = await stat(target, { bigint: true }).catch(() => null);
  if (info?.isDirectory()) return { type: 'folder', target };
  if (!info?.isFile()) return { type: 'other' };
  return { type: 'file', stamp: `${info.ino} ${info.size} ${info.ctimeNs} ${info.mtimeNs}` };
}

const isHidden = (name: string) => name.startsWith('.') || name === 'node_modules';

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

/** The reason for a failure as one sentence. */
export const sentenceOf = (error: unknown): string => reasonOf(error).replace(/\.?$/, '.');

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
