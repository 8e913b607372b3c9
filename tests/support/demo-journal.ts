import { openJournal } from '../../src/journal/index.ts';
import type { Journal } from '../../src/journal/types.ts';

/** The demo journal as its site was built from; opened once for a file of tests. */
export async function demoJournal(): Promise<Journal> {
  const { journal } = await openJournal('content');
  if (!journal) throw new Error('The demo journal cannot be opened.');
  return journal;
}
