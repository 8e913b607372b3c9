import { mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import {
  amplifier,
  type Files,
  log,
  problemsOf,
  problemText,
  settings,
  smallJournal,
  temporaryFolder,
  toneCsv,
  version,
  versionWith,
  writeFiles,
} from '../support/journal.ts';

const first = 'logs/first/index.md';
const tone = { 'logs/first/tone.csv': toneCsv() };
const gull = { 'amplifiers/gull/index.md': amplifier, 'amplifiers/gull/v1.md': version };
const following = (id: string) => versionWith(`follows: ${id}\nchanges: [ Another tube. ]\n`);
const capture = (keys: string) => log(`captures:\n  - { file: tone.csv, title: Tone, ${keys} }\n`);

const dangling = (place: string, kind: string, id: string, hint: string) =>
  `\n${place} error dangling-reference\n  There is no ${kind} "${id}" in this journal.\n  ${hint}\n`;

describe('a reference between records', () => {
  test.each<[string, Files, string]>([
    [
      'a log of an amplifier that is not there',
      { [first]: log().replace('amplifiers/tern', 'amplifiers/turn') },
      dangling(`${first}:4:12`, 'amplifier', 'amplifiers/turn', 'Did you mean amplifiers/tern?'),
    ],
    [
      'a log of an amplifier written as a path of its file',
      { [first]: log().replace('amplifiers/tern', '/amplifiers/tern/index.md') },
      dangling(`${first}:4:12`, 'amplifier', '/amplifiers/tern/index.md', 'Did you mean amplifiers/tern?'),
    ],
    [
      'a log that takes a version for an amplifier',
      { [first]: log().replace('amplifiers/tern', 'amplifiers/tern/v1') },
      dangling(`${first}:4:12`, 'amplifier', 'amplifiers/tern/v1', 'There are: amplifiers/tern.'),
    ],
    [
      'a log of a version that is not there',
      { [first]: log('version: amplifiers/tern/v2\n') },
      dangling(`${first}:6:10`, 'version', 'amplifiers/tern/v2', 'Did you mean amplifiers/tern/v1?'),
    ],
    [
      'a log of a version of another amplifier',
      { ...gull, [first]: log('version: amplifiers/gull/v1\n') },
      `
${first}:6:10 error version-of-another-amplifier
  The version "amplifiers/gull/v1" does not belong to the amplifier "amplifiers/tern".
  Name a version of that amplifier, or change amplifier: to the one that was measured.
`,
    ],
    [
      'an amplifier whose name begins like another',
      {
        'amplifiers/tern-2/index.md': amplifier,
        'amplifiers/tern-2/v1.md': version,
        [first]: log('version: amplifiers/tern-2/v1\n'),
      },
      `
${first}:6:10 error version-of-another-amplifier
  The version "amplifiers/tern-2/v1" does not belong to the amplifier "amplifiers/tern".
  Name a version of that amplifier, or change amplifier: to the one that was measured.
`,
    ],
    [
      'a version that follows one that is not there',
      { 'amplifiers/tern/v1.md': following('amplifiers/tern/prototype') },
      dangling(
        'amplifiers/tern/v1.md:6:10',
        'version',
        'amplifiers/tern/prototype',
        'There are: amplifiers/tern/v1.',
      ),
    ],
    [
      'a version in a folder without an amplifier',
      { 'amplifiers/gull/v1.md': version },
      `
amplifiers/gull/v1.md:1:1 error dangling-reference
  This record stands in the folder amplifiers/gull, which has no index.md to say what the amplifier is.
  Write amplifiers/gull/index.md, or move the record into the folder of its amplifier.
`,
    ],
    [
      'a capture of a version that is not there',
      { ...tone, [first]: capture('version: amplifiers/tern/v9') },
      dangling(`${first}:7:45`, 'version', 'amplifiers/tern/v9', 'Did you mean amplifiers/tern/v1?'),
    ],
    [
      'a capture with an instrument that journal.yaml does not have',
      {
        ...tone,
        'journal.yaml': `${settings}instruments:\n  - { id: scope, name: Scope }\n`,
        [first]: capture('instrument: scop'),
      },
      dangling(`${first}:7:48`, 'instrument', 'scop', 'Did you mean scope?'),
    ],
    [
      'a capture with an instrument where journal.yaml has none',
      { ...tone, [first]: capture('instrument: scope') },
      dangling(`${first}:7:48`, 'instrument', 'scope', 'The journal has no instrument yet.'),
    ],
  ])('%s', async (_title, files, expected) => {
    expect(await problemsOf(files)).toBe(expected);
  });

  test('a hint lists a dozen names and counts the rest', async () => {
    const many = Array.from({ length: 14 }, (_, index) => [`amplifiers/tern/m${index + 10}.md`, version]);
    const text = await problemsOf({ ...Object.fromEntries(many), [first]: log('version: amplifiers/x\n') });
    expect(text).toContain('  There are: amplifiers/tern/m10, amplifiers/tern/m11,');
    expect(text).toContain('amplifiers/tern/m21 and 3 more.');
  });
});

describe('versions that follow each other in a circle', () => {
  const circle = (file: string, chain: string) => `
amplifiers/tern/${file}.md:6:10 error version-cycle
  The versions follow each other in a circle: ${chain}.
  The first version follows none.
`;

  test('one that follows itself', async () => {
    expect(await problemsOf({ 'amplifiers/tern/v1.md': following('amplifiers/tern/v1') })).toBe(
      circle('v1', 'amplifiers/tern/v1 → amplifiers/tern/v1'),
    );
  });

  test('three, told once, and not for a fourth that leads into the circle', async () => {
    const files = {
      'amplifiers/tern/v1.md': following('amplifiers/tern/v3'),
      'amplifiers/tern/v2.md': following('amplifiers/tern/v1'),
      'amplifiers/tern/v3.md': following('amplifiers/tern/v2'),
      'amplifiers/tern/v4.md': following('amplifiers/tern/v2'),
    };
    expect(await problemsOf(files)).toBe(
      circle('v1', 'amplifiers/tern/v1 → amplifiers/tern/v3 → amplifiers/tern/v2 → amplifiers/tern/v1'),
    );
  });
});

test('a log that stands as .md and as .mdx is told at the second', async () => {
  const files = { 'journal.yaml': `${settings}mdx: true\n`, 'logs/first/index.mdx': log() };
  expect(await problemsOf(files)).toBe(`
logs/first/index.mdx:1:1 error duplicate-id
  The record "logs/first" exists twice: here and in logs/first/index.md.
  Rename or remove one of the two files.
`);
});

test('Markdown where no record is expected is a warning; hidden, installed and static files are left alone', async () => {
  const strays = [
    'README.markdown',
    'amplifiers/tern/deep/note.md',
    'amplifiers/tern/v2.mdx',
    'logs/first/more.md',
    'logs/loose.MD',
    'notes.md',
  ];
  const left = ['static/readme.md', '.drafts/note.md', 'node_modules/a/readme.md', 'logs/first/notes.txt'];
  const files = Object.fromEntries([...strays, ...left].map((file) => [file, 'Text.\n']));
  const stray = (file: string) => `
${file}:1:1 warning stray-record
  This Markdown file is not at a place where a record is expected, so it would not be published.
  Records live in amplifiers/<amplifier>/, logs/<date>-<slug>/index.md, pages/ and the like.`;
  expect(await problemsOf(files)).toBe(`${strays.map(stray).join('')}\n`);
});

test('a record whose name cannot stand in an address is refused', async () => {
  const files = {
    'logs/my log/index.md': log(),
    'logs/hum?/index.md': log(),
    'amplifiers/tern/v 2.md': version,
  };
  const name = (file: string, part: string) => `
${file}:1:1 error record-name
  "${part}" cannot stand in the address of a page.
  Rename it with at most 120 letters, digits, hyphens, underscores and full stops, for example 2026-02-07-first-sound.`;
  expect(await problemsOf(files)).toBe(
    `${[
      name('amplifiers/tern/v 2.md', 'v 2'),
      name('logs/hum?/index.md', 'hum?'),
      name('logs/my log/index.md', 'my log'),
    ].join('')}\n`,
  );
});

describe('links of the file system', () => {
  const outside = (file: string) => `
${file}:1:1 error outside-journal
  "${file}" leads out of the journal's folder; nothing outside is read or published.
  Copy the file into the journal and name it by a relative path.`;

  /** Problems of the small journal after links were laid in it: path of the link, then what it leads to. */
  async function withLinks(links: readonly [string, string][], files: Files = {}): Promise<string> {
    const folder = writeFiles({ ...smallJournal, ...files });
    for (const [link, target] of links) {
      mkdirSync(join(folder, link, '..'), { recursive: true });
      symlinkSync(target, join(folder, link));
    }
    const { problems } = await openJournal(folder);
    return `${problems.map((problem) => `\n${problemText(problem)}`).join('')}`;
  }

  test('a file and a folder outside are neither read nor published', async () => {
    const elsewhere = writeFiles({ 'tone.csv': toneCsv(), 'private/index.md': log('secret: yes\n') });
    const links: [string, string][] = [
      ['logs/first/tone.csv', join(elsewhere, 'tone.csv')],
      ['logs/private', join(elsewhere, 'private')],
    ];
    const files = { [first]: log('captures:\n  - { file: tone.csv, title: Tone }\n') };
    expect(await withLinks(links, files)).toBe(
      `
${first}:7:13 error capture-missing
  The capture file "tone.csv" is not beside the log.
  Put the CSV file into the folder of the log.${outside('logs/first/tone.csv')}${outside('logs/private')}`,
    );
  });

  test('a link to nothing', async () => {
    expect(await withLinks([['logs/gone', join(temporaryFolder(), 'nowhere')]])).toBe(`
logs/gone:1:1 error dead-link
  This link leads to a file that does not exist.
  Remove it, or copy the file into its place.`);
  });

  test('links in a circle end', async () => {
    const circle = (file: string) => `
${file}:1:1 error link-circle
  This link leads back to a folder that it stands in.
  Remove it.`;
    const links: [string, string][] = [
      ['logs/up', '..'],
      ['one/two', '../two'],
      ['two/one', '../one'],
    ];
    expect(await withLinks(links)).toBe(['logs/up', 'one/two/one', 'two/one/two'].map(circle).join(''));
  });

  test('a link inside the journal is followed', async () => {
    const files = {
      'bench/tone.csv': toneCsv(),
      [first]: log('captures:\n  - { file: tone.csv, title: Tone }\n'),
    };
    expect(await withLinks([['logs/first/tone.csv', '../../bench/tone.csv']], files)).toBe('');
  });

  test('a journal that is itself named through a link opens', async () => {
    const link = join(temporaryFolder(), 'journal');
    symlinkSync(writeFiles(smallJournal), link);
    expect((await openJournal(link)).problems).toEqual([]);
  });
});
