import { readdir, readFile, rm } from 'node:fs/promises';
import path from 'node:path';
import { writeWhole } from '../journal/store/write-whole.ts';

/** A file that was made earlier and kept, or the one made now; `file` is named by all that goes into it. */
export async function keptOrMade(file: string, make: () => Promise<Buffer>): Promise<Buffer> {
  const kept = await readFile(file).catch(() => null);
  if (kept) return kept;
  const made = await make();
  await writeWhole(file, made);
  return made;
}

/** Removes from a folder all that is not named here. */
export async function keepOnly(folder: string, names: ReadonlySet<string>): Promise<void> {
  const files = await readdir(folder).catch((): string[] => []);
  const others = files.filter((file) => !names.has(file));
  await Promise.all(others.map((file) => rm(path.join(folder, file), { force: true })));
}
