import type { Journal } from './types.ts';

/**
 * The journal that this process publishes. Site code is bundled apart from the commands, so the one resolved
 * journal is handed over on the global object under a key that both know.
 */
const key = Symbol.for('quiescent.journal');

/** What a site that is served while its journal is edited shows besides. */
export interface Live {
  /** HTML above every page that says which errors are open; empty where there are none. */
  notice: string;
}

interface Published {
  journal: Journal;
  live: Live | null;
}

const holder = globalThis as { [key]?: Published };

/** Makes a journal the one that the site shows; `live` where the site follows its files. */
export function publishJournal(journal: Journal, live: Live | null = null): void {
  holder[key] = { journal, live };
}

/** The journal that the site shows. */
export const currentJournal = (): Journal => published().journal;

/** True while the site follows the files of its journal. */
export const siteIsLive = (): boolean => published().live !== null;

/** HTML of the errors that are open while the site follows its files; empty otherwise. */
export const liveNotice = (): string => published().live?.notice ?? '';

function published(): Published {
  const found = holder[key];
  if (!found) throw new Error('No journal has been opened in this process.');
  return found;
}
