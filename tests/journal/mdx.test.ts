import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import {
  type Files,
  log,
  problemsOf,
  settings,
  smallJournal,
  temporaryFolder,
  toneCsv,
  writeFiles,
} from '../support/journal.ts';

const file = 'logs/second/index.mdx';

/** Problems of an .mdx log with this body from line 7 on. */
const problemsOfMdx = (body: string, files: Files = {}) =>
  problemsOf({ 'journal.yaml': `${settings}mdx: true\n`, [file]: log('', body), ...files });

test('.mdx is refused where the journal does not allow it', async () => {
  expect(await problemsOf({ [file]: log('', '{1 +}\n') })).toBe(`
${file}:1:1 error mdx-off
  .mdx logs run code while the site is built and are off in this journal.
  Rename the file to .md and use directives, or set mdx: true in journal.yaml.
`);
});

test('code in .mdx is not run while the journal is opened', async () => {
  const canary = join(temporaryFolder(), 'canary');
  const body = `import { writeFileSync } from 'node:fs'\n\n{writeFileSync(${JSON.stringify(canary)}, 'x')}\n`;
  expect(await problemsOfMdx(body)).toBe('\n\n');
  expect(existsSync(canary)).toBe(false);
});

test.each([
  ['an expression that is none', 'Text.\n\nA {x y} B\n', '9:5', 'Could not parse expression.'],
  [
    'a brace that is not closed',
    'Text.\n\nA {x\n',
    '9:5',
    'Unexpected end of file in expression, expected a corresponding closing brace for `{`.',
  ],
  [
    'an element that is not closed',
    'Text.\n\n<Note>\n\nMore.\n',
    '9:1',
    'Expected a closing tag for `<Note>`.',
  ],
  [
    'a less-than sign',
    'Noise <1 mV.\n',
    '7:8',
    'Unexpected character `1` (U+0031) before name, expected a character that can start a name, such as a letter, `$`, or `_`.',
  ],
])('%s is told at its place', async (_title, body, place, detail) => {
  expect(await problemsOfMdx(body)).toBe(`
${file}:${place} error mdx-syntax
  This is not valid MDX: ${detail}
  In .mdx a < or { in running text is written \\< or \\{.
`);
});

describe('components', () => {
  test.each([
    [
      'an unknown one',
      '<Chrt capture="tone" />',
      '7:1 error unknown-component\n  The component "Chrt" is neither known nor imported.\n  Did you mean Chart?',
    ],
    [
      'an unknown one in a line',
      'A <Video /> B',
      '7:3 error unknown-component\n  The component "Video" is neither known nor imported.\n  Known are Chart, Summary, Note, FigureValue; others are imported at the top of the file.',
    ],
    [
      'a member of an unknown one',
      '<Parts.Choke />',
      '7:1 error unknown-component\n  The component "Parts.Choke" is neither known nor imported.\n  Known are Chart, Summary, Note, FigureValue; others are imported at the top of the file.',
    ],
    [
      'a note inside a paragraph',
      'Text <Note>aside</Note> goes on.',
      '7:6 error component-in-paragraph\n  "<Note>" stands inside a paragraph.\n  Put it on lines of its own, with an empty line before and after.',
    ],
    [
      'an attribute of a note',
      '<Note colour="red">Text</Note>',
      '7:1 error unknown-attribute\n  "<Note>" has no attribute "colour".\n  It takes none.',
    ],
    [
      'a capture that is computed',
      '<Chart capture={name} kind="spectrum" />',
      '7:1 error computed-attribute\n  "<Chart>" takes its attributes as texts; what is computed cannot be checked before the page is made.\n  Write the attribute in quotes, for example capture="tone-1w".',
    ],
    [
      'attributes that are spread',
      '<Summary {...shown} />',
      '7:1 error computed-attribute\n  "<Summary>" takes its attributes as texts; what is computed cannot be checked before the page is made.\n  Write the attribute in quotes, for example capture="tone-1w".',
    ],
    [
      'a chart that shows nothing',
      '<Chart kind="spectrum" />',
      '7:1 error missing-attribute\n  "<Chart>" does not say which capture it shows.\n  Write capture="…" with the name of a capture of this log.',
    ],
  ])('%s is refused at its place', async (_title, body, expected) => {
    expect(await problemsOfMdx(`${body}\n`)).toBe(`\n${file}:${expected}\n`);
  });

  test('those that are known, imported or made in the file are no problem', async () => {
    const body = `import Own, { Other as Renamed } from './Own.astro'
import * as parts from '../parts.ts'
export const address = '/methods/'
export const Local = () => null

<Own /> <Renamed /> <Local /> <parts.Choke /> <props.Inner />

<Note>Look at *this*.</Note>

<>Text</>
`;
    const files = { 'logs/second/Own.astro': '', 'logs/parts.ts': '' };
    expect(await problemsOfMdx(body, files)).toBe('\n\n');
  });

  test('charts and summaries are noted for the page', async () => {
    const captures = 'captures:\n  - { file: tone.csv, title: Tone }\n';
    const body = '<Chart capture="tone" kind="excerpt" />\n\n::summary{capture="tone"}\n';
    const folder = writeFiles({
      ...smallJournal,
      'journal.yaml': `${settings}mdx: true\n`,
      [file]: log(captures, body),
      'logs/second/tone.csv': toneCsv(),
    });
    const { journal, problems } = await openJournal(folder);
    expect(problems).toEqual([]);
    const prose = journal?.logs.find(({ id }) => id === 'logs/second')?.prose;
    expect(prose).toMatchObject({ format: 'mdx', html: null, bodyLine: 9 });
    expect(prose?.mentions).toEqual([
      { name: 'chart', capture: 'tone', kind: 'excerpt', channel: null, place: { file, line: 9, column: 1 } },
      { name: 'summary', capture: 'tone', kind: null, channel: null, place: { file, line: 11, column: 1 } },
    ]);
  });
});

describe('imports', () => {
  test.each([
    [
      'of a file that is not there',
      "import Own from './Own.astro'",
      '7:18 error import-missing\n  The file "./Own.astro" that is imported here does not exist.\n  Write the relative path of a file of the journal.',
    ],
    [
      'of a misspelt file',
      'import Own from "./Parts.astr"',
      '7:18 error import-missing\n  The file "./Parts.astr" that is imported here does not exist.\n  Did you mean logs/second/Parts.astro?',
    ],
    [
      'of a file outside the journal',
      "import Own from '../../../Own.astro'",
      '7:18 error outside-journal\n  "../../../Own.astro" leads out of the journal\'s folder; nothing outside is published.\n  Copy the file into the journal.',
    ],
    [
      'of a path of the machine',
      "import data from '/etc/passwd'",
      '7:19 error outside-journal\n  "/etc/passwd" leads out of the journal\'s folder; nothing outside is published.\n  Copy the file into the journal.',
    ],
  ])('%s are refused', async (_title, body, expected) => {
    const files = { 'logs/second/Parts.astro': '' };
    expect(await problemsOfMdx(`${body}\n\nText.\n`, files)).toBe(`\n${file}:${expected}\n`);
  });
});

test.each([
  ['a script', '<script>alert(1)</script>', '7:1', '<script>'],
  ['a frame', '<iframe src="https://example.org" />', '7:1', '<iframe>'],
  ['an event handler', 'H<sub onClick="x()">2</sub>', '7:2', '<sub>'],
  ['a style', 'A <span style="color: red">word</span>.', '7:3', '<span>'],
  ['a link', 'A <a href="javascript:x()">link</a>.', '7:3', '<a>'],
  ['a picture', '<img src="https://example.org/a.png" />', '7:1', '<img>'],
])('%s is refused in .mdx as in .md', async (_title, body, place, tag) => {
  expect(await problemsOfMdx(`${body}\n`)).toBe(`
${file}:${place} error html-refused
  HTML such as "${tag}" is not published from prose.
  Use Markdown or a directive. Allowed without attributes: br, sub, sup, kbd, small, mark, del, ins, abbr, details, summary.
`);
});

test('prices, ratios, links and pictures in .mdx are those of .md', async () => {
  const body = `From $5 to $6 at 12:30, 3:1, H<sub>2</sub>. [a](javascript:x) [b](gone.md) ![](gone.svg)

{/* a comment */}
`;
  expect(await problemsOfMdx(body)).toBe(`
${file}:7:45 error link-scheme
  A link to "javascript:x" is refused.
  Links may begin with https:, http: or mailto:, or name a record or file of the journal.
${file}:7:63 error dangling-link
  The link "gone.md" leads to nothing in this journal.
  Write the relative path of a record, capture or static file.
${file}:7:76 error image-missing
  The picture "gone.svg" does not exist.
  Put the file beside the record and name it by a relative path.
`);
});
