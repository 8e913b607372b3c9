import type { Journal } from './types.ts';

/**
 * The journal that this process publishes. Site code is bundled apart from the commands, so the one resolved
 * journal is handed over on the global object under a key that both know.
 */
const key = Symbol.for('quiescent.journal');
const holder = globalThis as { [key]?: Journal };

/** Makes a journal the one that the site shows. */
export function publishJournal(journal: Journal): void {
  holder[key] = journal;
}

/** The journal that the site shows. */
export function currentJournal(): Journal {
  const journal = holder[key];
  if (!journal) throw new Error('No journal has been opened in this process.');
  return journal;
}
