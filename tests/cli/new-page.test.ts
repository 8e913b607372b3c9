import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { smallJournal, temporaryFolder, writeFiles } from '../support/journal.ts';
import { ran } from '../support/output.ts';

describe('new page', () => {
  test('begins a page under its title, and the journal is sound with it', async () => {
    const journal = writeFiles(smallJournal);
    const { code, result } = await ran('new', 'page', 'Über: the bench', '--journal', journal);
    expect(code).toBe(0);
    expect(result).toContain(join(journal, 'pages/uber-the-bench.md'));
    const opened = await openJournal(journal);
    expect(opened.problems).toEqual([]);
    expect(opened.journal?.pages.map(({ id, data }) => [id, data.title])).toEqual([
      ['pages/uber-the-bench', 'Über: the bench'],
    ]);
  });

  test('never writes over one that exists', async () => {
    const journal = writeFiles({ ...smallJournal, 'pages/bench.md': 'mine' });
    const { code, notice } = await ran('new', 'page', 'Bench', '--journal', journal);
    expect(code).toBe(1);
    expect(notice).toContain('is not written over');
    expect(readFileSync(join(journal, 'pages/bench.md'), 'utf8')).toBe('mine');
  });

  test.each([
    [['Bench'], 1, /is no journal/],
    [[], 2, /new page needs a title: quiescent new page "Title"$/m],
    [['Bench', 'notes'], 2, /takes one title in quotes, but "notes" follows/],
    [['Bench', '--captures', 'a.csv'], 2, /new page takes no option "--captures"/],
    [['…'], 2, /has no letter or digit/],
  ])('refuses %j', async (words, expected, told) => {
    const { code, notice } = await ran('new', 'page', ...words, '--journal', temporaryFolder());
    expect(code).toBe(expected);
    expect(notice).toMatch(told);
  });
});
