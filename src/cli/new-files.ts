import { existsSync } from 'node:fs';
import { mkdir, readdir, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { reasonOf } from '../journal/files.ts';
import { shownPath } from './paths.ts';

/** A file to be written, by its absolute path. */
export interface NewFile {
  file: string;
  text: string | Uint8Array;
  /** True where it is kept from a reader of the journal: a folder made for it stays out of Git. */
  apart?: boolean;
}

/** Why a folder cannot take a new record, or null where it is a journal. */
export function noJournal(folder: string): string | null {
  if (existsSync(path.join(folder, 'journal.yaml'))) return null;
  return `${shownPath(folder)} is no journal: it has no journal.yaml.`;
}

/** Writes files that do not exist yet; a file that exists is never written over. The reason where that fails. */
export async function writeAll(files: readonly NewFile[]): Promise<string | null> {
  const taken = files.find(({ file }) => existsSync(file));
  if (taken) return `${shownPath(taken.file)} exists and is not written over. Nothing was written.`;
  for (const file of files) {
    const failure = await writeNew(file);
    if (failure !== null) return `${shownPath(file.file)} cannot be written: ${failure}`;
  }
  return null;
}

async function writeNew({ file, text, apart = false }: NewFile): Promise<string | null> {
  try {
    const folder = path.dirname(file);
    const isNew = (await mkdir(folder, { recursive: true })) !== undefined;
    if (isNew && apart) await writeFile(path.join(folder, '.gitignore'), '*\n');
    await writeFile(file, text, { flag: 'wx' });
    return null;
  } catch (error) {
    return reasonOf(error);
  }
}

/** The calendar date where the computer stands. */
export function dateOf(now: Date): string {
  const two = (number: number) => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** Id of the journal's first amplifier, for a record to begin with. */
export async function firstAmplifier(journal: string): Promise<string> {
  const folders = await readdir(path.join(journal, 'amplifiers')).catch((): string[] => []);
  const isOne = (folder: string) => existsSync(path.join(journal, 'amplifiers', folder, 'index.md'));
  return `amplifiers/${folders.sort().find(isOne) ?? 'name-of-the-amplifier'}`;
}
