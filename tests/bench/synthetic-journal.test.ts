import { createHash } from 'node:crypto';
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { problemText, temporaryFolder } from '../support/journal.ts';
import { writeSyntheticJournal } from '../support/synthetic/journal.ts';

async function synthetic(logs: number, seed: number): Promise<string> {
  const folder = temporaryFolder();
  await writeSyntheticJournal(folder, { logs, seed });
  return folder;
}

/** The hash of each file by its path. */
const hashesOf = (folder: string) =>
  globSync('**/*.*', { cwd: folder })
    .sort()
    .map((file) => ({
      file,
      hash: createHash('sha256')
        .update(readFileSync(join(folder, file)))
        .digest('hex'),
    }));

test('a synthetic journal of a whole amplifier and the beginning of another has no problem at all', async () => {
  const { journal, problems } = await openJournal(await synthetic(21, 1));
  expect(problems.map(problemText)).toEqual([]);
  expect(journal?.settings.invented).toBe(true);
  expect(journal?.logs).toHaveLength(21);
  expect(journal?.logs.map(({ captures }) => captures.length)).toEqual(Array(21).fill(4));
  expect(journal?.versions.filter(({ sheet }) => sheet !== null)).toHaveLength(4);
  expect(journal?.decisions.flatMap(({ evidence }) => evidence.map(({ isBorneOut }) => isBorneOut))).toEqual([
    true,
    true,
    true,
  ]);
  expect(journal?.comparisons).toHaveLength(1);
});

test('one seed gives one journal, and another seed other captures and pictures', async () => {
  const first = hashesOf(await synthetic(2, 7));
  expect(hashesOf(await synthetic(2, 7))).toEqual(first);
  const other = hashesOf(await synthetic(2, 8));
  expect(other.map(({ file }) => file)).toEqual(first.map(({ file }) => file));
  const alike = first.filter(({ hash }) => other.some((one) => one.hash === hash));
  expect(alike.map(({ file }) => file)).toEqual(['amplifiers/synthetic-0001/index.md', 'journal.yaml']);
});

test('no two captures of a synthetic journal are alike', async () => {
  const captures = hashesOf(await synthetic(4, 1)).filter(({ file }) => file.endsWith('.csv'));
  expect(captures).toHaveLength(16);
  expect(new Set(captures.map(({ hash }) => hash)).size).toBe(16);
});
