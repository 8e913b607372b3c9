import { expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { measuredDifferences } from '../../src/site/measured-differences.ts';
import { type Files, log, smallJournal, version, versionWith, writeFiles } from '../support/journal.ts';

/** The tone with its second harmonic as many times larger, told apart by its number of rows. */
function csv(times: number, rows = 5000): string {
  const row = (index: number) => {
    const phase = (2 * Math.PI * index) / 50;
    const noise = 0.0005 * Math.sin(index ** 2 * 0.7);
    const value = Math.sin(phase) + 0.01 * times * Math.cos(2 * phase) + noise;
    return `${(index * 2e-5).toFixed(5)},${value.toFixed(6)}`;
  };
  return `${['time (s),load (V)', ...Array.from({ length: rows }, (_, index) => row(index))].join('\n')}\n`;
}

const entry = (file: string, keys: string) => `  - { file: ${file}.csv, title: ${file}, ${keys} }\n`;
const one = 'version: amplifiers/tern/v1, load: 8 Ω, conditions: { level: 1 W, frequency: 1 kHz }';
const two = one.replace('v1', 'v2');

/** What is found between the versions of a journal with these captures. */
async function found(captures: string, more: Files = {}, repeats = '') {
  const files: Files = {
    ...smallJournal,
    'amplifiers/tern/v2.md': versionWith('follows: amplifiers/tern/v1\nchanges: [ Another tube. ]\n'),
    'amplifiers/tern/v1.md': version,
    'logs/first/index.md': log(`captures:\n${captures}${repeats}`),
    'logs/first/a.csv': csv(2),
    'logs/first/b.csv': csv(1),
    ...more,
  };
  const { journal } = await openJournal(writeFiles(files));
  if (!journal) throw new Error('no journal');
  return measuredDifferences(journal.logs, { id: 'amplifiers/tern/v2' }, { id: 'amplifiers/tern/v1' });
}

type Pairs = Awaited<ReturnType<typeof found>>;

const titles = (pairs: Pairs) => pairs.map(({ before, after }) => [before.title, after.title]);
const rowOf = (pairs: Pairs, id: string) => pairs[0]?.rows.find(({ before }) => before.id === id);

test('captures of both versions under the same conditions are compared figure by figure', async () => {
  const pairs = await found(entry('a', one) + entry('b', two));
  expect(titles(pairs)).toEqual([['a', 'b']]);
  const thd = rowOf(pairs, 'thd');
  expect(thd?.difference.verdict).toBe('different in these captures');
  // 1 % less 2 %, by the files themselves; the noise in a line is a thousandth of that.
  expect(Math.abs((thd?.difference.value ?? 0) + 0.01)).toBeLessThan(1e-4);
  expect(rowOf(pairs, 'fundamental-level')?.difference.verdict).toBe('cannot be told apart');
});

test('levels and frequencies count as equal however they are written', async () => {
  const written = two.replace('1 W', '1000 mW').replace('1 kHz', '1000 Hz');
  expect(titles(await found(entry('a', one) + entry('b', written)))).toEqual([['a', 'b']]);
});

test.each([
  ['another load', two.replace('8 Ω', '4 Ω')],
  ['another level', two.replace('1 W', '2 W')],
  ['another frequency', two.replace('1 kHz', '2 kHz')],
  ['other harmonics counted', `${two}, harmonics: 5`],
  ['another kind', `${two}, kind: two-tone, tones: [1 kHz, 2 kHz]`],
  ['another channel role', `${two}, columns: { load: { column: load, role: stimulus } }`],
])('a capture of %s is not compared', async (_title, keys) => {
  expect(titles(await found(entry('a', one) + entry('b', keys)))).toEqual([]);
});

test('repeats stand for their captures, and their scatter is taken for the side without', async () => {
  const more = { 'logs/first/c.csv': csv(1.02, 4950), 'logs/first/d.csv': csv(0.98, 4900) };
  const repeats = 'repeats:\n  - { id: again, title: Again, of: [ b, c, d ], between: leads off and on }\n';
  const captures = entry('a', one) + entry('b', two) + entry('c', two) + entry('d', two);
  const pairs = await found(captures, more, repeats);
  expect(titles(pairs)).toEqual([['a', 'Again']]);
  expect(pairs[0]?.after).toMatchObject({ page: 'logs/first', anchor: 'repeats-again' });
  expect(pairs[0]?.basis).toMatchObject({ scatter: 'second', declared: 'neither' });
  expect(rowOf(pairs, 'thd')?.difference).toMatchObject({ verdict: 'lower', scatter: 'second' });
});

test('a declared repeatability takes the place of repeats, and is named as one', async () => {
  const declared =
    'repeatability:\n  - { figures: [ thd ], of: [ a ], deviation: 2 %, captures: 6, from: in January }\n';
  const pairs = await found(entry('a', one) + entry('b', two), {}, declared);
  expect(pairs[0]?.basis).toMatchObject({ scatter: 'first', declared: 'first' });
  expect(rowOf(pairs, 'thd')?.difference).toMatchObject({ verdict: 'lower', declared: 'first' });
  expect(rowOf(pairs, 'harmonic-2')?.difference).toMatchObject({
    verdict: 'different in these captures',
    scatter: 'neither',
  });
});

test('noise up to different frequencies is two quantities, and has no difference', async () => {
  const faster = csv(1).replaceAll(
    /^(0\.\d+),/gm,
    (_line, time: string) => `${(Number(time) / 2).toFixed(6)},`,
  );
  const pairs = await found(entry('a', one) + entry('b', two), { 'logs/first/b.csv': faster });
  expect(rowOf(pairs, 'noise')?.difference).toMatchObject({
    verdict: 'no data',
    value: null,
    absent: 'They are taken on different terms: up to 25.0\u00a0kHz, and up to 50.0\u00a0kHz.',
  });
});

test('figures that neither side has, and what the generator decides, are no rows', async () => {
  const pairs = await found(entry('a', one) + entry('b', two));
  expect(rowOf(pairs, 'fundamental-frequency')).toBeUndefined();
  const empty = pairs[0]?.rows.filter(({ before, after }) => before.value === null && after.value === null);
  expect(empty).toEqual([]);
});

test('of five captures of a version that differ in nothing the newest stands for all; four stand by themselves', async () => {
  const names = ['a', 'b', 'c', 'd', 'e'];
  const files = Object.fromEntries(
    [...names, 'f'].map((name, index) => [`logs/first/${name}.csv`, csv(2, 5000 + index)]),
  );
  const newer = entry('f', two);
  const [first = '', ...four] = names.map((name) => entry(name, one));
  expect(titles(await found(first + four.join('') + newer, files))).toEqual([['e', 'f']]);
  expect(titles(await found(four.join('') + newer, files))).toEqual([
    ['b', 'f'],
    ['c', 'f'],
    ['d', 'f'],
    ['e', 'f'],
  ]);
  const elsewhere = entry('a', one.replace('1 kHz }', '1 kHz, cathode: open }'));
  expect(titles(await found(elsewhere + four.join('') + newer, files))).toHaveLength(5);
  const columns = 'columns: { load: { column: load, role: response, alternative: another unit } }';
  expect(titles(await found(entry('a', `${one}, ${columns}`) + four.join('') + newer, files))).toHaveLength(
    5,
  );
});
