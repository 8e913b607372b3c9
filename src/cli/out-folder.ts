import { existsSync } from 'node:fs';
import { cp, readdir, realpath, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { UsageFault } from './arguments.ts';
import { shownPath } from './paths.ts';

/**
 * Refuses to put a site where it would replace something else: in the place of the journal, of a folder
 * around it or around the caller, or of a folder with other files in it.
 */
export async function checkOutFolder(out: string, journal: string): Promise<void> {
  const target = await realOf(out);
  const kept = await Promise.all([journal, process.cwd()].map(realOf));
  if (kept.some((folder) => isInside(target, folder))) {
    throw new UsageFault(
      `--out ${shownPath(out)} would replace the folder that you work in; name one of its own.`,
    );
  }
  const entries = await readdir(target).catch((): string[] => []);
  if (entries.length > 0 && !entries.includes('index.html')) {
    throw new UsageFault(
      `--out ${shownPath(out)} holds something else than a site; name an empty or new folder.`,
    );
  }
}

/** Copies a finished site beside its place and swaps it in; the previous site is whole until then. */
export async function swapIn(finished: string, out: string): Promise<void> {
  const [next, previous] = [`${out}.next-${process.pid}`, `${out}.previous-${process.pid}`];
  try {
    await cp(finished, next, { recursive: true });
    if (existsSync(out)) await rename(out, previous);
    await rename(next, out);
  } catch (error) {
    if (existsSync(previous)) await rename(previous, out);
    throw error;
  } finally {
    for (const folder of [next, previous, finished]) await rm(folder, { recursive: true, force: true });
  }
}

const realOf = (folder: string) => realpath(folder).catch(() => folder);

function isInside(folder: string, target: string): boolean {
  const relative = path.relative(folder, target);
  return relative === '' || !(relative.startsWith('..') || path.isAbsolute(relative));
}
