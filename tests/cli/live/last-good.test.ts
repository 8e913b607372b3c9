import { rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { withLastGood } from '../../../src/cli/live/last-good.ts';
import { type Journal, openJournal } from '../../../src/journal/index.ts';
import { log, smallJournal, writeFiles } from '../../support/journal.ts';

const dated = (day: string) => log().replace('2026-01-18', `2026-01-${day}`);
const files = {
  ...smallJournal,
  'logs/first/index.md': dated('03'),
  'logs/second/index.md': dated('02'),
  'logs/third/index.md': dated('01'),
};

async function opened(folder: string): Promise<Journal> {
  const { journal } = await openJournal(folder);
  if (!journal) throw new Error('The journal was not opened.');
  return journal;
}

const ids = ({ logs }: Journal) => logs.map(({ id }) => id);

test('a record that cannot be read stays as it was, in its place', async () => {
  const folder = writeFiles(files);
  const before = await opened(folder);
  await writeFile(join(folder, 'logs/second/index.md'), log('odd: 1\n'));
  const after = await opened(folder);
  expect(ids(after)).toEqual(['logs/first', 'logs/third']);
  const kept = withLastGood(after, before);
  expect(ids(kept)).toEqual(['logs/first', 'logs/second', 'logs/third']);
  expect(kept.logs[1]).toBe(before.logs[1]);
  expect(kept.logs[0]).toBe(after.logs[0]);
});

test('a record whose file is gone does not stay', async () => {
  const folder = writeFiles(files);
  const before = await opened(folder);
  await rm(join(folder, 'logs/first'), { recursive: true });
  expect(ids(withLastGood(await opened(folder), before))).toEqual(['logs/second', 'logs/third']);
});

test('the first record of a list comes back at its beginning', async () => {
  const folder = writeFiles(files);
  const before = await opened(folder);
  await writeFile(join(folder, 'logs/first/index.md'), 'no frontmatter');
  expect(ids(withLastGood(await opened(folder), before))).toEqual([
    'logs/first',
    'logs/second',
    'logs/third',
  ]);
});
