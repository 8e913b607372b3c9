import { spawnSync } from 'node:child_process';
import { globSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';

import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { beforeEach, describe, expect, test } from 'vitest';
import { resultKey } from '../../../src/journal/store/result-key.ts';
import { openStore } from '../../../src/journal/store/result-store.ts';

let folder = '';
const key = resultKey('test', 'v1', 'a');
const content = Buffer.from('what was computed, at some length');
const fileOf = (name = key) => path.join(folder, '.quiescent', 'results', name.slice(0, 2), name.slice(2));

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'quiescent-store-'));
});

describe('a store of results', () => {
  test('gives back what it was given, also to another process', async () => {
    await openStore({ folder }).put(key, content);
    const module = pathToFileURL(path.resolve('src/journal/store/result-store.ts')).href;
    const code = `const { openStore } = await import('${module}');
      process.stdout.write(openStore({ folder: ${JSON.stringify(folder)} }).get('${key}'));`;
    const { stdout } = spawnSync(process.execPath, ['--input-type=module', '--eval', code]);
    expect(stdout).toEqual(content);
  });

  test('knows nothing that was never kept, and nothing after its folder is deleted', async () => {
    const store = openStore({ folder });
    expect(store.get(key)).toBeNull();
    await store.put(key, content);
    rmSync(store.folder, { recursive: true });
    expect(store.get(key)).toBeNull();
    await store.put(key, content);
    expect(store.get(key)).toEqual(content);
  });

  test('takes an entry cut short at any length for absent, and replaces it', async () => {
    const store = openStore({ folder });
    await store.put(key, content);
    const whole = readFileSync(fileOf());
    for (let length = 0; length < whole.length; length++) {
      writeFileSync(fileOf(), whole);
      truncateSync(fileOf(), length);
      expect(store.get(key)).toBeNull();
    }
    await store.put(key, content);
    expect(store.get(key)).toEqual(content);
  });

  test('takes an entry with any one byte changed, and a foreign one, for absent', async () => {
    const store = openStore({ folder });
    await store.put(key, content);
    const whole = readFileSync(fileOf());
    for (let at = 0; at < whole.length; at++) {
      const damaged = Buffer.from(whole);
      damaged[at] = (damaged[at] ?? 0) ^ 1;
      writeFileSync(fileOf(), damaged);
      expect(store.get(key)).toBeNull();
    }
    writeFileSync(fileOf(), '<html></html>');
    expect(store.get(key)).toBeNull();
  });

  test('keeps an empty result apart from none', async () => {
    const store = openStore({ folder });
    await store.put(key, new Uint8Array(0));
    expect(store.get(key)).toHaveLength(0);
  });

  test('leaves one whole entry and nothing unfinished when many write it at once', async () => {
    const stores = Array.from({ length: 20 }, () => openStore({ folder }));
    await Promise.all(stores.map((store) => store.put(key, content)));
    expect(openStore({ folder }).get(key)).toEqual(content);
    expect(globSync('**/*', { cwd: path.dirname(fileOf()) })).toHaveLength(1);
  });

  test('keeps nothing and fails nothing where it cannot write', async () => {
    writeFileSync(path.join(folder, '.quiescent'), 'a file in the place of the folder');
    const store = openStore({ folder });
    await store.put(key, content);
    expect(store.get(key)).toBeNull();
  });
});

describe('the key of a result', () => {
  test('differs with kind, version of the code, and every part, wherever parts meet', () => {
    const keys = [
      resultKey('test', 'v1', 'ab', 'c'),
      resultKey('test', 'v1', 'a', 'bc'),
      resultKey('test', 'v1', 'abc'),
      resultKey('test', 'v2', 'ab', 'c'),
      resultKey('other', 'v1', 'ab', 'c'),
    ];
    expect(new Set(keys).size).toBe(keys.length);
    expect(resultKey('test', 'v1', Buffer.from('ab'), 'c')).toBe(keys[0]);
  });
});
