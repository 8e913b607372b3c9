import { readdir, readFile, realpath, stat } from 'node:fs/promises';
import path from 'node:path';
import { UsageFault } from '../arguments.ts';
import { shownPath } from '../paths.ts';

/** What every home page of a site made here says of itself. */
const sign = '<meta name="generator" content="Quiescent">';

/**
 * Refuses to put a site where it would replace something else: in the place of a file, of the journal, of a folder
 * around it or around the caller, or of a folder that holds no site made here.
 */
export async function checkOutFolder(out: string, journal: string): Promise<void> {
  const target = await realOf(out);
  const kept = await Promise.all([journal, process.cwd()].map(realOf));
  if (kept.some((folder) => isInside(target, folder))) {
    throw new UsageFault(
      `--out ${shownPath(out)} would replace the folder that you work in; name one of its own.`,
    );
  }
  const info = await stat(target).catch(() => null);
  if (info && !info.isDirectory())
    throw new UsageFault(`--out ${shownPath(out)} is a file; name an empty or new folder.`);
  if (info && !(await isOurs(target))) {
    throw new UsageFault(
      `--out ${shownPath(out)} holds something else than a site; name an empty or new folder.`,
    );
  }
}

/** Whether a folder is empty or holds a site made here. */
async function isOurs(folder: string): Promise<boolean> {
  if ((await readdir(folder)).length === 0) return true;
  const home = await readFile(path.join(folder, 'index.html'), 'utf8').catch(() => '');
  return home.includes(sign);
}

/** Where a folder really is, its links followed; a folder that is not there is where it is named. */
export const realOf = (folder: string): Promise<string> => realpath(folder).catch(() => folder);

function isInside(folder: string, target: string): boolean {
  const relative = path.relative(folder, target);
  return relative === '' || !(relative.startsWith('..') || path.isAbsolute(relative));
}
