import path from 'node:path';
import { currentJournal } from '../journal/current.ts';
import { everyRecord } from '../journal/every-record.ts';
import type { Journal, Prose } from '../journal/types.ts';

/** What a record is to Astro's content layer. */
interface Written {
  id: string;
  file: string;
  prose: Prose;
}

/** A record as the content layer renders it: Markdown already rendered, MDX to be compiled. */
export interface RecordEntry {
  id: string;
  /** Relative to the root of the site's configuration, with forward slashes. */
  filePath: string;
  deferredRender?: true;
  rendered?: { html: string; metadata: Pick<Prose, 'headings' | 'imagePaths'> };
}

/** The records of a journal that have pages of their own. */
export const writtenRecords = (journal: Journal): Written[] =>
  everyRecord<Written>({ ...journal, sessions: journal.listening });

/**
 * The root is told by the loader to the pages over the global object, as the two are bundled apart.
 */
const key = Symbol.for('quiescent.site-root');
const holder = globalThis as { [key]?: string };

/** States the root of the site's configuration, against which paths of records are written. */
export function setSiteRoot(root: string): void {
  holder[key] = root;
}

export function pathFromRoot(journal: Journal, file: string): string {
  return path.relative(holder[key] ?? '', path.join(journal.folder, file)).replaceAll(path.sep, '/');
}

/** The record of an id as the journal has it now. */
export function recordEntry(id: string): RecordEntry {
  const journal = currentJournal();
  const record = writtenRecords(journal).find((one) => one.id === id);
  if (!record) throw new Error(`The record "${id}" is not in the journal.`);
  const { html, headings, imagePaths } = record.prose;
  const filePath = pathFromRoot(journal, record.file);
  if (html === null) return { id, filePath, deferredRender: true };
  return { id, filePath, rendered: { html, metadata: { headings, imagePaths } } };
}
