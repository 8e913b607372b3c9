import { existsSync, mkdtempSync, utimesSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { beforeEach, expect, test } from 'vitest';
import { resultKey } from '../../../src/journal/store/result-key.ts';
import { entryPath, openStore } from '../../../src/journal/store/result-store.ts';
import { sweepStore } from '../../../src/journal/store/sweep.ts';

const dayMs = 86_400_000;
const nowMs = Date.UTC(2026, 10, 25);
let folder = '';

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'quiescent-sweep-'));
});

/** Keeps entries of 1000 bytes that were last used so many days ago, and gives back their keys. */
async function kept(...days: readonly number[]): Promise<string[]> {
  const store = openStore({ folder });
  const keys = days.map((day) => resultKey('test', 'v1', `${day}`));
  for (const [index, key] of keys.entries()) {
    await store.put(key, new Uint8Array(1000));
    const used = new Date(nowMs - (days[index] ?? 0) * dayMs);
    utimesSync(entryPath(store.folder, key), used, used);
  }
  return keys;
}

const remaining = (keys: readonly string[]) => {
  const { folder: results } = openStore({ folder });
  return keys.map((key) => existsSync(entryPath(results, key)));
};

test('entries unused for more than 14 days go, and younger ones stay', async () => {
  const keys = await kept(1, 13, 15);
  await sweepStore(openStore({ folder }), nowMs);
  expect(remaining(keys)).toEqual([true, true, false]);
});

test('an old entry that was used now stays, and counts as young from then on', async () => {
  const keys = await kept(20, 21);
  const store = openStore({ folder });
  store.get(keys[0] ?? '');
  await sweepStore(store, nowMs);
  expect(remaining(keys)).toEqual([true, false]);
  await sweepStore(openStore({ folder }), nowMs + 13 * dayMs);
  expect(remaining(keys)).toEqual([true, false]);
});

test('beyond the room those unused for longest go, never those used now', async () => {
  const keys = await kept(1, 2, 3, 4);
  const store = openStore({ folder });
  store.get(keys[3] ?? '');
  await sweepStore(store, nowMs, { bytes: 2500 });
  expect(remaining(keys)).toEqual([true, false, false, true]);
});

test('a journal without results has nothing to sweep', async () => {
  await expect(sweepStore(openStore({ folder }), nowMs)).resolves.toBeUndefined();
});
