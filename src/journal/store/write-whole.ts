import { randomUUID } from 'node:crypto';
import { mkdir, rename, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';

/** Writes a file beside its place and moves it there, so that nobody reads half of it; folders are made as needed. */
export async function writeWhole(file: string, bytes: Uint8Array): Promise<void> {
  const unfinished = `${file}.${randomUUID()}`;
  try {
    await mkdir(path.dirname(file), { recursive: true });
    await writeFile(unfinished, bytes);
    await rename(unfinished, file);
  } catch (error) {
    await rm(unfinished, { force: true }).catch(() => undefined);
    throw error;
  }
}
