import { mkdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { checkOutFolder } from '../../../src/cli/place/out-folder.ts';
import { temporaryFolder, writeFiles } from '../../support/journal.ts';

const ours = '<html><head><meta name="generator" content="Quiescent"></head></html>';
const journal = () => writeFiles({ 'journal.yaml': 'title: Notes\n' });

test('a new folder, an empty one and a site made here can hold a site', async () => {
  const folder = writeFiles({ 'site/index.html': ours, 'site/own.txt': 'kept by nobody\n' });
  mkdirSync(join(folder, 'empty'));
  for (const name of ['new', 'empty', 'site'])
    await expect(checkOutFolder(join(folder, name), journal())).resolves.toBeUndefined();
});

test('a file is not replaced by a site', async () => {
  const folder = writeFiles({ 'notes.txt': 'mine\n' });
  await expect(checkOutFolder(join(folder, 'notes.txt'), journal())).rejects.toThrow('is a file');
  expect(readFileSync(join(folder, 'notes.txt'), 'utf8')).toBe('mine\n');
});

test('a site that was made elsewhere is not replaced, nor any other folder with files in it', async () => {
  const folder = writeFiles({ 'by-hand/index.html': '<h1>Mine</h1>\n', 'pictures/bench.png': 'png' });
  for (const name of ['by-hand', 'pictures'])
    await expect(checkOutFolder(join(folder, name), journal())).rejects.toThrow('something else than a site');
});

test('neither the journal nor a folder around it is replaced, by whatever name', async () => {
  const inside = join(temporaryFolder(), 'notes');
  writeFiles({ 'journal.yaml': 'title: Notes\n' }, inside);
  const other = join(temporaryFolder(), 'link');
  symlinkSync(inside, other);
  for (const out of [inside, join(inside, '..'), other])
    await expect(checkOutFolder(out, inside)).rejects.toThrow('would replace the folder that you work in');
});
