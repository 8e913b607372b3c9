import { randomUUID } from 'node:crypto';
import { mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';

/** A file that was made earlier and kept, or the one made now; `file` is named by all that goes into it. */
export async function keptOrMade(file: string, make: () => Promise<Buffer>): Promise<Buffer> {
  const kept = await readFile(file).catch(() => null);
  return kept ?? keep(file, await make());
}

/** Written beside its place and moved there, so that a build cut short leaves no half file. */
async function keep(file: string, content: Buffer): Promise<Buffer> {
  await mkdir(path.dirname(file), { recursive: true });
  const unfinished = `${file}.${randomUUID()}`;
  await writeFile(unfinished, content);
  await rename(unfinished, file);
  return content;
}

/** Removes from a folder all that is not named here. */
export async function keepOnly(folder: string, names: ReadonlySet<string>): Promise<void> {
  const files = await readdir(folder).catch((): string[] => []);
  const others = files.filter((file) => !names.has(file));
  await Promise.all(others.map((file) => rm(path.join(folder, file), { force: true })));
}
