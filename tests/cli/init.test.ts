import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { temporaryFolder, writeFiles } from '../support/journal.ts';
import { ran } from '../support/output.ts';

describe('init', () => {
  test('begins a journal without a problem that has every kind of record, each with comments', async () => {
    const folder = join(temporaryFolder(), 'my-journal');
    const { code, result } = await ran('init', folder);
    expect(code).toBe(0);
    expect(result).toContain(`npx quiescent dev --journal ${folder}\n`);
    const { journal, problems } = await openJournal(folder);
    expect(problems).toEqual([]);
    if (!journal) throw new Error('There is no journal.');
    const { amplifiers, versions, units, parts, decisions, comparisons, listening, logs, pages } = journal;
    const kinds = [amplifiers, versions, units, parts, decisions, comparisons, listening, logs, pages];
    for (const records of kinds) {
      expect(records.length).toBeGreaterThan(0);
      for (const { file } of records) expect(readFileSync(join(folder, file), 'utf8'), file).toMatch(/^# /m);
    }
    expect(journal.settings.invented).toBe(true);
  });

  test('its decision is borne out by its captures', async () => {
    const folder = join(temporaryFolder(), 'my-journal');
    await ran('init', folder);
    const { journal } = await openJournal(folder);
    const claims = journal?.decisions.flatMap(({ expectations, evidence }) => [...expectations, ...evidence]);
    expect(claims?.map(({ isBorneOut }) => isBorneOut)).toEqual([true, true]);
  });

  test('takes an empty folder', async () => {
    const folder = temporaryFolder();
    expect((await ran('init', folder)).code).toBe(0);
    expect(readdirSync(folder)).toContain('journal.yaml');
  });

  test('refuses a folder that holds something, and writes nothing', async () => {
    const folder = writeFiles({ 'notes.txt': 'x' });
    expect(await ran('init', folder)).toEqual({
      code: 1,
      result: '',
      notice: `${folder} is not empty; name a new or empty folder. Nothing was written.`,
    });
    expect(readdirSync(folder)).toEqual(['notes.txt']);
  });

  test('refuses the place of a file', async () => {
    const file = join(writeFiles({ 'notes.txt': 'x' }), 'notes.txt');
    const { code, notice } = await ran('init', file);
    expect(code).toBe(1);
    expect(notice).toContain('cannot become a journal');
  });
});
