import { existsSync } from 'node:fs';
import { cp, mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { realOf } from './out-folder.ts';

/** Names a folder beside a site, in which the next one waits and the last one is kept while they change places. */
const aside = '.unfinished-';

/** Stands in such a folder from its first moment, so that nobody else's folder is taken for one. */
const markFile = 'of-a-build';
const markText = 'A build put this folder here while it replaced the site beside it. It can be deleted.\n';

/**
 * Puts a finished site in its place. The previous one is whole until the new one is whole beside it; then two renames
 * change them. Killed between the two, the previous site lies aside until `mendSwap` puts it back.
 */
export async function swapIn(finished: string, out: string): Promise<void> {
  const place = await realOf(out);
  const folder = `${place}${aside}${process.pid}`;
  const [next, previous] = [path.join(folder, 'next'), path.join(folder, 'previous')];
  try {
    await mkdir(path.dirname(place), { recursive: true });
    await mkdir(folder);
    await writeFile(path.join(folder, markFile), markText);
    await moved(finished, next);
    if (existsSync(place)) await rename(place, previous);
    await rename(next, place);
  } finally {
    await restore(previous, place);
    await rm(folder, { recursive: true, force: true });
  }
}

/** Puts back what builds that were killed had laid aside, and takes away what they left unfinished. */
export async function mendSwap(out: string): Promise<void> {
  const place = await realOf(out);
  const begins = `${path.basename(place)}${aside}`;
  const beside = await readdir(path.dirname(place)).catch((): string[] => []);
  for (const name of beside.filter((one) => one.startsWith(begins))) {
    const folder = path.join(path.dirname(place), name);
    if (isRunning(Number(name.slice(begins.length))) || !(await isMarked(folder))) continue;
    await restore(path.join(folder, 'previous'), place);
    await rm(folder, { recursive: true, force: true });
  }
}

/** Moves a folder; to another file system by copying it. */
async function moved(from: string, to: string): Promise<void> {
  try {
    await rename(from, to);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EXDEV') throw error;
    await cp(from, to, { recursive: true });
    await rm(from, { recursive: true, force: true });
  }
}

async function restore(previous: string, place: string): Promise<void> {
  if (existsSync(previous) && !existsSync(place)) await rename(previous, place);
}

/** Whether the folder has the mark, or was made a moment before its mark was written. */
async function isMarked(folder: string): Promise<boolean> {
  const text = await readFile(path.join(folder, markFile), 'utf8').catch(() => '');
  return text === markText || (await readdir(folder).catch(() => ['?'])).length === 0;
}

function isRunning(pid: number): boolean {
  if (pid === process.pid) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
