import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test, vi } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { smallJournal, temporaryFolder, toneCsv, writeFiles } from '../support/journal.ts';
import { ran } from '../support/output.ts';

const sweep = 'frequency (Hz),load (V),THD (%)\n20,2.8,0.9\n1000,2.83,0.2\n20000,2.7,0.8\n';

/** The folder of the only log that a journal has beside `logs/first`. */
const newLog = (journal: string) =>
  join(journal, 'logs', readdirSync(join(journal, 'logs')).find((name) => name !== 'first') ?? '');

describe('new log', () => {
  test('copies captures beside a log that declares them, and the journal is sound with it', async () => {
    vi.useFakeTimers({ now: new Date(2026, 4, 3, 12), toFake: ['Date'] });
    const journal = writeFiles(smallJournal);
    const captures = writeFiles({ 'tone.csv': toneCsv(), 'thd-1w.csv': sweep });
    const files = ['tone.csv', 'thd-1w.csv'].map((file) => join(captures, file));
    const { code, result } = await ran(
      'new',
      'log',
      'Überraschung: 2nd',
      '--journal',
      journal,
      '--captures',
      ...files,
    );
    vi.useRealTimers();
    expect(code).toBe(0);
    const folder = join(journal, 'logs/2026-05-03-uberraschung-2nd');
    expect(result).toContain(join(folder, 'index.md'));
    expect(readdirSync(folder).sort()).toEqual(['index.md', 'thd-1w.csv', 'tone.csv']);
    expect(readFileSync(join(folder, 'tone.csv'), 'utf8')).toBe(toneCsv());
    const { journal: opened, problems } = await openJournal(journal);
    expect(problems).toEqual([]);
    expect(opened?.logs.find(({ id }) => id === 'logs/2026-05-03-uberraschung-2nd')?.data).toMatchObject({
      title: 'Überraschung: 2nd',
      date: '2026-05-03',
      amplifier: 'amplifiers/tern',
      captures: [
        { file: 'tone.csv', kind: 'waveform' },
        { file: 'thd-1w.csv', kind: 'frequency-sweep' },
      ],
    });
  });

  test('without captures is a sound log too', async () => {
    const journal = writeFiles(smallJournal);
    expect(await ran('new', 'log', 'Thoughts', '--journal', journal)).toMatchObject({ code: 0 });
    expect((await openJournal(journal)).problems).toEqual([]);
  });

  test('of a capture that is not understood is written, with its problems told, and exits 1', async () => {
    const journal = writeFiles(smallJournal);
    const file = join(writeFiles({ 'odd.csv': 'time (s),v (V)\n0,1\n1,x\n' }), 'odd.csv');
    const { code, notice } = await ran('new', 'log', 'Odd', '--journal', journal, '--captures', file);
    expect(code).toBe(1);
    expect(notice).toContain('odd.csv\n  3:3  error');
    expect(existsSync(join(newLog(journal), 'odd.csv'))).toBe(true);
    expect(readFileSync(join(newLog(journal), 'index.md'), 'utf8')).toContain('- file: odd.csv\n');
  });

  test.each([
    ['a capture that is not there', ['gone.csv'], 'The file cannot be read: it does not exist.'],
    ['two captures of one name', ['a/tone.csv', 'b/Tone.txt'], 'Two captures would be called "tone"'],
  ])('writes nothing with %s', async (_title, names, message) => {
    const journal = writeFiles(smallJournal);
    const folder = writeFiles({ 'a/tone.csv': sweep, 'b/Tone.txt': sweep });
    const files = names.map((name) => join(folder, name));
    const { code, notice } = await ran('new', 'log', 'Not yet', '--journal', journal, '--captures', ...files);
    expect(code).toBe(1);
    expect(notice).toContain(message);
    expect(notice).toContain('Nothing was written.');
    expect(readdirSync(join(journal, 'logs'))).toEqual(['first']);
  });

  test('never writes over a log, and needs a journal', async () => {
    const journal = writeFiles(smallJournal);
    const again = () => ran('new', 'log', 'Once', '--journal', journal);
    expect((await again()).code).toBe(0);
    expect(await again()).toMatchObject({ code: 1, notice: expect.stringContaining('is not written over') });
    const nowhere = await ran('new', 'log', 'Once', '--journal', temporaryFolder());
    expect(nowhere).toMatchObject({ code: 1, notice: expect.stringContaining('it has no journal.yaml') });
  });
});
