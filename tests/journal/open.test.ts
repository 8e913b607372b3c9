import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { AnalysisCache, ResultOrigin } from '../../src/journal/analysis/analysis-cache.ts';
import { analysisCache, openJournal } from '../../src/journal/index.ts';
import {
  amplifier,
  log,
  problemText,
  settings,
  smallJournal,
  temporaryFolder,
  toneCsv,
  version,
  versionWith,
  writeFiles,
} from '../support/journal.ts';

const textsOf = async (folder: string) => (await openJournal(folder)).problems.map(problemText);

describe('a folder that is no journal', () => {
  test('a folder that does not exist', async () => {
    const folder = join(temporaryFolder(), 'nowhere');
    expect(await openJournal(folder)).toEqual({
      journal: null,
      problems: [
        {
          rule: 'journal-missing',
          severity: 'error',
          file: 'journal.yaml',
          line: 1,
          column: 1,
          message: `The folder "${folder}" does not exist or is not a folder.`,
          hint: 'Name the journal with --journal DIR.',
        },
      ],
    });
  });

  test('a file', async () => {
    const folder = join(writeFiles({ 'journal.yaml': settings }), 'journal.yaml');
    expect(await textsOf(folder)).toEqual([
      `journal.yaml:1:1 error journal-missing\n  The folder "${folder}" does not exist or is not a folder.\n  Name the journal with --journal DIR.`,
    ]);
  });

  test('a folder without journal.yaml, whose records are checked all the same', async () => {
    const folder = writeFiles({ 'logs/first/index.md': log('tags: hum\n') });
    expect(await textsOf(folder)).toEqual([
      'journal.yaml:1:1 error journal-missing\n  The folder has no journal.yaml, so it is not a journal.\n  Create journal.yaml with at least title: and author:.',
      'logs/first/index.md:6:7 error wrong-type\n  A list is expected here, but this is "hum".',
    ]);
  });
});

test('a journal without records is a journal', async () => {
  const { journal, problems } = await openJournal(writeFiles({ 'journal.yaml': settings }));
  expect(problems).toEqual([]);
  expect(journal).toMatchObject({
    amplifiers: [],
    versions: [],
    logs: [],
    files: ['journal.yaml'],
    settings: { title: 'Bench notes', wording: 'tube', mains: 50, invented: false, mdx: false },
  });
});

test('a journal is joined: versions to amplifiers, captures to versions, newest log first', async () => {
  const dated = (date: string, keys = '') => log(keys).replace('2026-01-18', date);
  const folder = writeFiles({
    ...smallJournal,
    'amplifiers/gull/index.md': amplifier,
    'amplifiers/tern/v2.md': versionWith('follows: amplifiers/tern/v1\nchanges: [ Another tube. ]\n'),
    'logs/b/index.md': dated(
      '2026-03-01',
      'version: amplifiers/tern/v2\ncaptures:\n  - { file: tone.csv, title: Tone }\n  - { file: tone.csv, id: before, title: Tone, version: amplifiers/tern/v1 }\n',
    ),
    'logs/b/tone.csv': toneCsv(),
    'logs/a/index.md': dated('2026-03-01'),
    'logs/c/index.md': dated('2025-12-31'),
  });
  const { journal, problems } = await openJournal(folder);
  expect(problems).toEqual([]);
  expect(journal?.logs.map(({ id }) => id)).toEqual(['logs/b', 'logs/a', 'logs/first', 'logs/c']);
  expect(journal?.amplifiers.map(({ id, versions }) => [id, versions.map((one) => one.id)])).toEqual([
    ['amplifiers/gull', []],
    ['amplifiers/tern', ['amplifiers/tern/v1', 'amplifiers/tern/v2']],
  ]);
  expect(journal?.logs[0]?.captures.map((capture) => [capture.name, capture.version])).toEqual([
    ['tone', 'amplifiers/tern/v2'],
    ['before', 'amplifiers/tern/v1'],
  ]);
});

test('neither the order of records nor that of problems depends on the order in which files were written', async () => {
  const files = {
    ...smallJournal,
    'logs/a/index.md': log('tags: hum\nanswer: ""\n', '[x](gone.md)\n'),
    'logs/b/index.md': log('captures:\n  - { file: tone.csv, title: Tone }\n', '[x](gone.md) $\\foo$\n'),
    'logs/b/tone.csv': 'no numbers',
    'logs/c/index.md': log('captures:\n  - { file: ../b/tone.csv, title: Tone }\n'),
    'amplifiers/gull/v1.md': version,
    'notes.md': 'Text.',
  };
  const forward = await openJournal(writeFiles(files));
  const backward = await openJournal(writeFiles(Object.fromEntries(Object.entries(files).reverse())));
  expect(forward.problems.map(({ file, line, column, rule }) => `${file}:${line}:${column} ${rule}`)).toEqual(
    [
      'amplifiers/gull/v1.md:1:1 dangling-reference',
      'logs/a/index.md:6:7 wrong-type',
      'logs/a/index.md:7:9 value',
      'logs/b/index.md:9:1 dangling-link',
      'logs/b/index.md:9:15 maths',
      'logs/b/tone.csv:1:1 capture-no-numbers',
      'notes.md:1:1 stray-record',
    ],
  );
  expect(backward.problems).toEqual(forward.problems);
  expect(backward.journal?.logs.map(({ id }) => id)).toEqual(forward.journal?.logs.map(({ id }) => id));
  expect(backward.journal?.files).toEqual(forward.journal?.files);
});

describe('the cache of analyses', () => {
  /** A cache that counts what it had to compute. */
  function counted(): { cache: AnalysisCache; computed: () => number } {
    let count = 0;
    const onResult = (origin: ResultOrigin) => {
      if (origin === 'computed') count++;
    };
    return { cache: analysisCache({ onResult }), computed: () => count };
  }

  const captures = (more = '') => log(`captures:\n  - { file: tone.csv, title: Tone${more} }\n`);
  const files = { ...smallJournal, 'logs/first/index.md': captures(), 'logs/first/tone.csv': toneCsv() };

  test('computes a capture once for two openings, whatever the words around it', async () => {
    const folder = writeFiles(files);
    const { cache, computed } = counted();
    const before = await openJournal(folder, { cache });
    writeFiles(
      { 'logs/first/index.md': captures(', why: To know.').replace('First sound', 'Another title') },
      folder,
    );
    const after = await openJournal(folder, { cache });
    expect(computed()).toBe(1);
    expect(after.journal?.logs[0]?.data.title).toBe('Another title');
    expect(after.journal?.logs[0]?.captures[0]?.figures).toEqual(
      before.journal?.logs[0]?.captures[0]?.figures,
    );
  });

  test.each([
    ['other bytes', { 'logs/first/tone.csv': toneCsv().replaceAll('\n', '\r\n') }],
    ['another declaration', { 'logs/first/index.md': captures(', kind: waveform') }],
    ['another analysis', { 'logs/first/index.md': captures(', harmonics: 5') }],
    ['another band', { 'logs/first/index.md': captures(', band: [ 100 Hz, 10 kHz ]') }],
    ['another load', { 'logs/first/index.md': captures(', load: 8 Ω') }],
  ])('computes anew for %s', async (_title, changed) => {
    const folder = writeFiles(files);
    const { cache, computed } = counted();
    await openJournal(folder, { cache });
    writeFiles(changed, folder);
    await openJournal(folder, { cache });
    expect(computed()).toBe(2);
  });

  test('keeps a file that cannot be read as well as one that can', async () => {
    const folder = writeFiles({ ...files, 'logs/first/tone.csv': 'no numbers' });
    const { cache, computed } = counted();
    const rules = async () => (await openJournal(folder, { cache })).problems.map(({ rule }) => rule);
    expect([await rules(), await rules()]).toEqual([['capture-no-numbers'], ['capture-no-numbers']]);
    expect(computed()).toBe(1);
  });
});
