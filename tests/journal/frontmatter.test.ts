import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { splitMarkdown } from '../../src/journal/frontmatter.ts';
import { openJournal } from '../../src/journal/index.ts';
import {
  log,
  problemsOf,
  proseOf,
  settings,
  smallJournal,
  temporaryFolder,
  writeFiles,
} from '../support/journal.ts';

const file = 'logs/first/index.md';

const missing = `
logs/first/index.md:1:1 error frontmatter-missing
  The file does not begin with frontmatter.
  Begin with a line of three dashes, then keys such as title:, then three dashes again.
`;
const notClosed = `
logs/first/index.md:1:1 error frontmatter-open
  The frontmatter is not closed.
  End it with a line of three dashes.
`;
const language = (word: string, column: number) => `
logs/first/index.md:1:${column} error frontmatter-language
  Frontmatter is read as YAML; "${word}" behind the dashes is refused, as it could run code.
  Remove the word and write the keys in YAML.
`;

describe('a file whose frontmatter cannot be read', () => {
  test.each([
    ['no frontmatter', 'Hello.\n', missing],
    ['an empty file', '', missing],
    ['four dashes', '----\ntitle: x\n----\n', missing],
    ['an empty line first', `\n${log()}`, missing],
    ['no closing fence', '---\ntitle: x\n', notClosed],
    ['a closing fence of four dashes', '---\ntitle: x\n----\nText.\n', notClosed],
    ['JavaScript', '---js\n{}\n---\n', language('js', 4)],
    ['JavaScript behind spaces', '---  javascript\n{}\n---\n', language('javascript', 6)],
    ['CoffeeScript', '---coffee\n{}\n---\n', language('coffee', 4)],
    ['JSON', '---json\n{}\n---\n', language('json', 4)],
    ['a named YAML', '---yaml\ntitle: x\n---\n', language('yaml', 4)],
    [
      'TOML',
      '+++\ntitle = "x"\n+++\n',
      `
logs/first/index.md:1:1 error frontmatter-language
  Frontmatter between lines of plus signs is TOML, which is not read.
  Write the keys in YAML between two lines of three dashes.
`,
    ],
    [
      'bytes that are not UTF-8',
      new Uint8Array([0x2d, 0x2d, 0x2d, 0x0a, 0xff, 0xfe]),
      `
logs/first/index.md:1:1 error encoding
  The file is not UTF-8 text.
  Save it as UTF-8.
`,
    ],
    [
      'a file of 4 MB and more',
      log('', 'x'.repeat(4_000_001)),
      `
logs/first/index.md:1:1 error too-large
  The file is larger than 4 MB, which is more than a record can be.
  Keep measurements in capture files and pictures in files of their own.
`,
    ],
  ])('%s is told', async (_title, source, expected) => {
    expect(await problemsOf({ [file]: source })).toBe(expected);
  });
});

test.each(['js', 'javascript', 'coffee'])('frontmatter in %s is not run', async (word) => {
  const canary = join(temporaryFolder(), 'canary');
  const code = `{ title: require('fs').writeFileSync(${JSON.stringify(canary)}, 'x') }`;
  const { problems } = await openJournal(
    writeFiles({ ...smallJournal, [file]: `---${word}\n${code}\n---\n` }),
  );
  expect(problems.map(({ rule }) => rule)).toEqual(['frontmatter-language']);
  expect(existsSync(canary)).toBe(false);
});

test('a YAML tag does not make code of a value', async () => {
  expect(await problemsOf({ [file]: log('answer: !!js/function "function () {}"\n') })).toBe(`
logs/first/index.md:6:9 error yaml-syntax
  The tag "!!js/function" is not known; values here are texts, numbers, lists and groups of keys.
  Remove the tag, or put quotes around a text that begins with an exclamation mark.
`);
});

describe('YAML that cannot be read', () => {
  const at = (place: string, message: string, hint: string) =>
    `\nlogs/first/index.md:${place} error yaml-syntax\n  ${message}\n  ${hint}\n`;
  const look =
    'Look at the indentation, quotes and colons here; a text with ": " in it needs quotes around it.';

  test.each([
    [
      'a quote that is not closed',
      'answer: "No\n',
      at('6:12', 'This is not valid YAML: Missing closing "quote.', look),
    ],
    [
      'a colon in a text without quotes',
      'answer: No: it does not.\n',
      at('6:9', 'This is not valid YAML: Nested mappings are not allowed in compact mappings.', look),
    ],
    [
      'a list that is not closed',
      'tags: [ hum\n',
      at(
        '6:12',
        'This is not valid YAML: Flow sequence in block collection must be sufficiently indented and end with a ].',
        look,
      ),
    ],
    [
      'keys at different columns',
      'tags:\n  - hum\n answer: No.\n',
      at('8:1', 'This is not valid YAML: All mapping items must start at the same column.', look),
    ],
    [
      'a key that stands twice',
      'answer: No.\ntitle: Again\n',
      at('7:1', 'The key "title" stands here for the second time.', 'Remove one of the two.'),
    ],
    [
      'a tab',
      'captures:\n\t- file: tone.csv\n',
      at('7:1', 'This line is indented with a tab, which YAML does not allow.', 'Indent with spaces.'),
    ],
    [
      'an alias without an anchor',
      'answer: *no\n',
      at(
        '6:9',
        'The alias "*no" has no anchor before it.',
        'Set the anchor &no first, or put quotes around a text that begins with an asterisk.',
      ),
    ],
  ])('%s is told at its place', async (_title, keys, expected) => {
    expect(await problemsOf({ [file]: log(keys) })).toBe(expected);
  });

  test('the same stands in .mdx', async () => {
    const mdx = { 'journal.yaml': `${settings}mdx: true\n`, 'logs/second/index.mdx': log('answer: "No\n') };
    expect(await problemsOf(mdx)).toBe(
      at('6:12', 'This is not valid YAML: Missing closing "quote.', look).replace(
        file,
        'logs/second/index.mdx',
      ),
    );
  });

  test('a second document in journal.yaml is refused, not passed over', async () => {
    expect(await problemsOf({ 'journal.yaml': `${settings}---\ntitle: Another\n` })).toBe(`
journal.yaml:3:1 error yaml-syntax
  A second YAML document begins here, and only one is read.
  Remove the line of three dashes.
`);
  });

  test('aliases that multiply are refused before they are written out', async () => {
    const tens = (name: string) => `[${Array.from({ length: 10 }, () => `*${name}`).join(', ')}]`;
    const bomb = ['a', 'b', 'c', 'd', 'e', 'f'].map((name, index, names) =>
      index === 0 ? '  - &a x' : `  - &${name} ${tens(names[index - 1] ?? '')}`,
    );
    expect(await problemsOf({ [file]: log(`tags:\n${bomb.join('\n')}\n`) })).toBe(`
logs/first/index.md:2:1 error yaml-aliases
  The aliases here stand for more than 100 values.
  Write the values out.
`);
  });

  test('brackets nested a thousand deep are refused, and nothing throws', async () => {
    const deep = `tags: ${'['.repeat(10_000)}${']'.repeat(10_000)}\n`;
    expect(await problemsOf({ [file]: log(deep) })).toBe(`
logs/first/index.md:6:71 error yaml-depth
  Groups and lists stand in one another here more than 64 deep, which is more than is read.
  Look for brackets or braces that are not closed.
`);
  });

  test('an alias of a list inside itself is refused, and nothing throws', async () => {
    expect(await problemsOf({ [file]: log('tags: &all [ *all ]\n') })).toBe(`
logs/first/index.md:6:14 error yaml-syntax
  The alias "*all" stands in what it names, so that it has no end.
  Write the value out.
`);
  });
});

test('values are those of YAML 1.2, and numbers keep the spelling of names, prices and tube types', async () => {
  const keys = 'answer: yes\ntags: [ no, 012, 1:30, 6E5, 0x1F, 1.50, 7591 ]\n';
  const { journal, problems } = await openJournal(writeFiles({ ...smallJournal, [file]: log(keys) }));
  expect(problems).toEqual([]);
  expect(journal?.logs[0]?.data).toMatchObject({
    answer: 'yes',
    tags: ['no', '012', '1:30', '6E5', '0x1F', '1.50', '7591'],
  });
});

test('a byte-order mark and line endings of Windows or old Macs change neither values nor places', async () => {
  for (const ending of ['\r\n', '\r']) {
    const source = `\uFEFF${log('tags: hum\n')}`.replaceAll('\n', ending);
    expect(await problemsOf({ [file]: source })).toBe(`
logs/first/index.md:6:7 error wrong-type
  A list is expected here, but this is "hum".
`);
  }
});

test.each([
  ['nothing', '---\n---\n'],
  ['an empty line', '---\n\n---\nText.\n'],
  ['a comment', '---\n# title: later\n---\n'],
])('frontmatter of %s misses every key that is needed', async (_title, source) => {
  const missingKeys = ['title', 'date', 'amplifier', 'question'].map(
    (key) => `
logs/first/index.md:2:1 error missing-key
  The key "${key}" is missing.
  Add a line "${key}:" with its value.`,
  );
  expect(await problemsOf({ [file]: source })).toBe(`${missingKeys.join('')}\n`);
});

test.each([
  ['a text', 'Hello', '"Hello"'],
  ['a list', '- title', 'a list'],
])('frontmatter that is %s is refused', async (_title, keys, found) => {
  expect(await problemsOf({ [file]: `---\n${keys}\n---\n` })).toBe(`
logs/first/index.md:2:1 error wrong-type
  A group of keys is expected here, but this is ${found}.
`);
});

test('names that every object has are keys like others', async () => {
  expect(await problemsOf({ [file]: log('__proto__: { polluted: yes }\nconstructor: 5\n') })).toBe(`
logs/first/index.md:6:1 error unknown-key
  The key "__proto__" is not known here.
  Keys that can stand here: title, date, amplifier, version, question, answer, tags, captures, repeats, repeatability, expectations, keyFigures.
logs/first/index.md:7:1 error unknown-key
  The key "constructor" is not known here.
  Keys that can stand here: title, date, amplifier, version, question, answer, tags, captures, repeats, repeatability, expectations, keyFigures.
`);
});

test('a body that begins with dashes keeps its text, and its places are those of the file', async () => {
  const { html, problems } = await proseOf('---\nkept: text\n---\n\nA formula $\\foo$.\n');
  expect(html).toContain('kept: text');
  expect(problems).toBe(`
logs/first/index.md:11:12 error maths
  The formula cannot be set: Undefined control sequence: \\foo.
  Mend the TeX here; a dollar sign that is money is written \\$.
`);
});

test.each([
  ['a body', log('', 'Body.\n'), 'Body.\n', 7],
  ['spaces behind the fences', '---  \ntitle: x\n--- \nBody.\n', 'Body.\n', 4],
  ['no line after the closing fence', '---\ntitle: x\n---', '', 3],
  ['an empty first line', '---\ntitle: x\n---\n\nBody.', '\nBody.', 4],
])('splitMarkdown with %s gives the body and its first line', (_title, source, body, bodyLine) => {
  expect(splitMarkdown(source, 'a.md').parts).toMatchObject({ body, bodyLine });
});
