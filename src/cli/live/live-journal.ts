import { setTimeout as pause } from 'node:timers/promises';
import type { AnalysisCache } from '../../journal/analysis/analysis-cache.ts';
import {
  type Journal,
  type Opened,
  type OpenOptions,
  openJournal,
  publishJournal,
  sentenceOf,
  withoutRepeats,
} from '../../journal/index.ts';
import type { Memory } from '../../journal/memory.ts';
import { hasErrors, type Problem, problemAt } from '../../problem/index.ts';
import { type FramedProblem, framed } from '../code-frame.ts';
import type { Output } from '../output.ts';
import { shownPath } from '../paths.ts';
import { withLastGood } from './last-good.ts';
import { noticeOf, problemPage } from './notice.ts';
import { changesText } from './open-list.ts';
import { pageFault } from './page-fault.ts';
import { standIn } from './stand-in.ts';

/** A journal that is published anew after every change of its files, and the one list of what is wrong with it. */
export interface LiveJournal {
  /** The journal as it is published now; without records where it could not be read yet. */
  current(): Journal;
  /** Reads the files again, tells what changed, and publishes what can be shown. */
  reopen(): Promise<void>;
  /** The page to show in the place of any other, while the journal could not be read yet; null otherwise. */
  pageForAll(): string | null;
  /** Notes why the page at an address could not be made, and gives the page to show in its place. */
  failed(address: string, error: unknown): Promise<string>;
  /** Notes that the page at an address could be made. */
  succeeded(address: string): Promise<void>;
}

const remarks = {
  lastGood: 'What cannot be read now is shown as it last could be. This goes away when the files are mended.',
  nothing: 'The journal cannot be shown before this is mended. The page follows by itself.',
};

export interface LiveOptions {
  folder: string;
  cache: AnalysisCache;
  memory: Memory;
  output: Output;
  /** Wipes the terminal, so that the list of problems is drawn again from the top; null where it cannot be. */
  wipe: (() => void) | null;
}

/** Follows the journal in a folder. */
export function liveJournal({ folder, cache, memory, output, wipe }: LiveOptions): LiveJournal {
  const faults = new Map<string, Problem>();
  let last: Journal | null = null;
  let found: Problem[] = [];
  let shown: FramedProblem[] = [];
  let told: Problem[] | null = null;
  const open = () => [...found, ...faults.values()];
  const current = () => last ?? standIn(folder);
  const tell = async () => {
    const telling = { folder, name: shownPath(folder), redraws: wipe !== null };
    const text = await changesText(told ?? [], open(), telling);
    if (text !== null && told !== null) wipe?.();
    if (text !== null || told === null) output.notice(text ?? `${telling.name}: No problems.`);
    told = open();
  };
  return {
    current,
    async reopen() {
      const { journal, problems } = await opened(folder, { cache, memory });
      found = journal ? problems : withWarningsOf(found, problems);
      if (journal) last = last && hasErrors(problems) ? withLastGood(journal, last) : journal;
      for (const [address, { file }] of faults) if (!current().files.includes(file)) faults.delete(address);
      shown = await framed(found, folder);
      publishJournal(current(), { notice: noticeOf(shown, remarks.lastGood) });
      await tell();
    },
    pageForAll: () => (last ? null : problemPage(shown, remarks.nothing)),
    async failed(address, error) {
      faults.set(address, pageFault(error, address, current()));
      await tell();
      return problemPage(await framed(open(), folder), remarks.lastGood);
    },
    async succeeded(address) {
      if (faults.delete(address)) await tell();
    },
  };
}

/** What is wrong where the journal as a whole could not be looked at: the warnings of before stay open. */
const withWarningsOf = (before: readonly Problem[], now: readonly Problem[]): Problem[] =>
  withoutRepeats([...now, ...before.filter(({ severity }) => severity === 'warning')]);

/** How often a folder that changes while it is read is read anew. */
const mostTries = 3;

/** Opens a journal; files that come and go meanwhile may make that fail, so that it is tried again. */
async function opened(folder: string, options: OpenOptions, tries = 1): Promise<Opened> {
  try {
    return await openJournal(folder, options);
  } catch (error) {
    if (tries < mostTries) {
      await pause(100);
      return opened(folder, options, tries + 1);
    }
    const message = `The journal cannot be read: ${sentenceOf(error)}`;
    const place = { file: 'journal.yaml', line: 1, column: 1 };
    return { journal: null, problems: [problemAt(place, { rule: 'unreadable', message })] };
  }
}
