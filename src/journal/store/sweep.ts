import { readdir, rm, stat, utimes } from 'node:fs/promises';
import path from 'node:path';
import { entryPath, type ResultStore } from './result-store.ts';

const dayMs = 86_400_000;

/** Entries that were not used for so long are let go of. */
const mostDays = 14;

/** The room that entries may take. Beyond it those unused for longest go, never one that was used just now. */
const mostBytes = 4 * 2 ** 30;

interface Bounds {
  days?: number;
  bytes?: number;
}

interface Entry {
  file: string;
  bytes: number;
  /** When it was last used, as the time of its file; to the day. */
  usedMs: number;
}

/**
 * Lets go of entries that nobody used for 14 days, and of those unused for longest where all together take more than
 * 4 GiB. `nowMs` is the time of day in milliseconds. What another process takes away meanwhile is no fault.
 */
export async function sweepStore(
  store: ResultStore,
  nowMs: number,
  { days = mostDays, bytes = mostBytes }: Bounds = {},
): Promise<void> {
  const inUse = new Set([...store.used].map((key) => entryPath(store.folder, key)));
  const entries = await entriesOf(store.folder);
  const now = new Date(nowMs);
  let total = entries.reduce((sum, entry) => sum + entry.bytes, 0);
  for (const entry of entries.sort((a, b) => a.usedMs - b.usedMs)) {
    const age = nowMs - entry.usedMs;
    if (inUse.has(entry.file)) {
      if (age > dayMs) await utimes(entry.file, now, now).catch(() => undefined);
    } else if (age > days * dayMs || total > bytes) {
      await rm(entry.file, { force: true }).catch(() => undefined);
      total -= entry.bytes;
    }
  }
}

async function entriesOf(folder: string): Promise<Entry[]> {
  const names = await readdir(folder, { recursive: true }).catch((): string[] => []);
  const entries = await Promise.all(
    names
      .map((name) => path.join(folder, name))
      .map(async (file) => {
        const info = await stat(file).catch(() => null);
        return info?.isFile() ? [{ file, bytes: info.size, usedMs: info.mtimeMs }] : [];
      }),
  );
  return entries.flat();
}
