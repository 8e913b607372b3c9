import { expect, test } from 'vitest';
import { log, problemsOf, toneCsv } from '../support/journal.ts';

const captured = (file: string) => log(`captures:\n  - { file: ${file}, title: Tone }\n`);

test('a capture that would be published in the place of the log’s own figures is refused where it is declared', async () => {
  const files = { 'logs/first/index.md': captured('figures.csv'), 'logs/first/figures.csv': toneCsv() };
  expect(await problemsOf(files)).toBe(
    '\nlogs/first/index.md:7:13 error reserved-file\n' +
      '  The site writes a file of its own called figures.csv in this place, and one of the two would be lost.\n' +
      '  Give the file another name, for example figures-capture.csv.\n',
  );
});

test('so is a capture in the place of the figures of the whole journal, whatever its ending', async () => {
  const files = { 'logs/first/index.md': captured('../../figures'), figures: toneCsv() };
  expect(await problemsOf(files)).toMatch(/7:13 error reserved-file\n/);
});

test('a fixed file under the name of one that the site writes is refused; other names are free', async () => {
  const files = { 'static/feed.xml': '', 'static/robots.txt': '', 'static/old/figures.csv': '' };
  expect(await problemsOf(files)).toBe(
    '\nstatic/feed.xml:1:1 error reserved-file\n' +
      '  The site writes a file of its own called feed.xml in this place, and one of the two would be lost.\n' +
      '  Give the file another name.\n',
  );
});

test('a fixed file in the place of the search index is refused; others below its page are free', async () => {
  const files = { 'static/search/index/pagefind.js': '', 'static/search/notes.txt': '' };
  const found = await problemsOf(files);
  expect(found.match(/^\S+ error reserved-file$/gm)).toEqual([
    'static/search/index/pagefind.js:1:1 error reserved-file',
  ]);
});

test('key files and trial sheets of listening sessions are refused where they would be published, and only there', async () => {
  const name = '2026-01-20-two';
  const refused = [`static/${name}.key.txt`, `static/sealed/${name}.sheet.txt`];
  const kept = [`sealed/${name}.key.txt`, `sealed/${name}.sheet.txt`, 'static/house.key.txt'];
  const found = await problemsOf(Object.fromEntries([...refused, ...kept].map((file) => [file, ''])));
  expect(found.match(/^\S+ error sealed-order$/gm)).toEqual(
    refused.map((file) => `${file}:1:1 error sealed-order`),
  );
  expect(found).toContain('holds the order of a listening session, and the site would publish it.');
});
