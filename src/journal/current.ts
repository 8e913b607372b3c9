import type { Journal } from './types.ts';

/**
 * The journal that this process publishes. Site code is bundled apart from the commands, so the one resolved
 * journal is handed over on the global object under a key that both know.
 */
const key = Symbol.for('quiescent.journal');

interface Published {
  journal: Journal;
  /** Whether the site is served while the journal is edited. */
  isLive: boolean;
}

const holder = globalThis as { [key]?: Published };

/** Makes a journal the one that the site shows. */
export function publishJournal(journal: Journal, isLive = false): void {
  holder[key] = { journal, isLive };
}

/** The journal that the site shows. */
export const currentJournal = (): Journal => published().journal;

/** True while the site follows the files of its journal. */
export const siteIsLive = (): boolean => published().isLive;

function published(): Published {
  const found = holder[key];
  if (!found) throw new Error('No journal has been opened in this process.');
  return found;
}
