import { expect, test } from 'vitest';
import { analysisCache, openJournal } from '../../src/journal/index.ts';
import { openStore } from '../../src/journal/store/result-store.ts';
import { log, smallJournal, toneCsv, writeFiles } from '../support/journal.ts';

/** Rows of the capture. */
const rows = 5000;

const files = {
  ...smallJournal,
  'logs/first/index.md': log(
    'captures:\n  - { file: tone.csv, title: Tone }\n  - { file: tone.csv, id: again, title: Tone again }\n',
  ),
  'logs/first/tone.csv': toneCsv(['speaker', 'output']),
};

/** Lists of so many entries that hang on a thing, by path; what is only fetched when it is asked for does not. */
function longLists(whole: unknown, most: number): string[] {
  const seen = new Set<unknown>();
  const found: string[] = [];
  const visit = (value: unknown, path: string): void => {
    if (typeof value !== 'object' || value === null || seen.has(value)) return;
    seen.add(value);
    if ((Array.isArray(value) || value instanceof Float64Array) && value.length >= most) found.push(path);
    if (ArrayBuffer.isView(value)) return;
    const own = value instanceof Map ? Object.fromEntries(value) : value;
    for (const [name, about] of Object.entries(Object.getOwnPropertyDescriptors(own))) {
      visit(about.value, `${path}.${name}`);
    }
  };
  visit(whole, '');
  return found;
}

test('no capture of an opened journal holds a list as long as its samples, which are there when asked for', async () => {
  const folder = writeFiles(files);
  const open = async () =>
    (
      await openJournal(folder, { cache: analysisCache({ store: openStore({ folder }) }) })
    ).journal?.logs.flatMap(({ captures }) => captures) ?? [];
  for (const captures of [await open(), await open()]) {
    expect(captures.map(({ kind }) => kind)).toEqual(['waveform', 'waveform']);
    expect(longLists(captures, rows / 2)).toEqual([]);
    for (const { capture } of captures) {
      expect(capture.columns.map(({ values }) => values.length)).toEqual([rows, rows]);
    }
    expect(longLists(captures, rows / 2)).toEqual([]);
  }
});

test('without a place on disk the samples hang on the captures', async () => {
  const { journal } = await openJournal(writeFiles(files));
  const found = longLists(journal?.logs, rows);
  expect(found).toContain('.0.captures.0.capture.columns.0.values');
});
