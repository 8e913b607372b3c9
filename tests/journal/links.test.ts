import { describe, expect, test } from 'vitest';
import { type Files, log, problemsOf, proseOf, toneCsv } from '../support/journal.ts';

const drawing = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"></svg>';
/** One pixel. */
const png = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
);

/** A second log with a capture, static files and pictures, to be linked to. */
const around: Files = {
  'logs/second/index.md': log(
    'captures:\n  - { file: tone.csv, title: Tone }\n  - { file: codes.txt, title: Codes }\n',
    '\n## Noise\n\n## What is left of 6.6 kΩ\n',
  ),
  'logs/second/tone.csv': toneCsv(),
  'logs/second/codes.txt': toneCsv(),
  'logs/second/unused.csv': toneCsv(),
  'static/plan.pdf': 'plan',
  'static/plans/chassis.pdf': 'plan',
  'logs/first/bench.svg': drawing,
  'logs/first/my bench.svg': drawing,
  'logs/first/bench.png': png,
  'logs/second/bench.svg': drawing,
};

describe('a link', () => {
  test.each([
    ['a record by its file', '../../amplifiers/tern/index.md', '/notes/amplifiers/tern/'],
    ['a record by its id', 'amplifiers/tern/v1', '/notes/amplifiers/tern/v1/'],
    ['a record by its id with slashes', '/amplifiers/tern/v1/', '/notes/amplifiers/tern/v1/'],
    ['a record by its folder', '../second', '/notes/logs/second/'],
    ['a record by its folder with a slash', '../second/', '/notes/logs/second/'],
    ['a version beside', '../../amplifiers/tern/v1.md', '/notes/amplifiers/tern/v1/'],
    ['the log itself', 'index.md', '/notes/logs/first/'],
    ['a part of another record', '../second/index.md#noise', '/notes/logs/second/#noise'],
    ['a part of the page', '#content', '#content'],
    ['a capture by its id', 'logs/second/tone', '/notes/logs/second/tone/'],
    ['a capture file', '../second/tone.csv', '/notes/logs/second/tone.csv'],
    ['a capture file of another ending', '../second/codes.txt', '/notes/logs/second/codes.txt.csv'],
    ['a static file by its path', '../../static/plan.pdf', '/notes/plan.pdf'],
    ['a static file by its place on the site', '/plans/chassis.pdf', '/notes/plans/chassis.pdf'],
    ['a page of the site', '/methods/#thd', '/notes/methods/#thd'],
    ['the home page', '/', '/notes/'],
    ['percent signs', '..%2Fsecond', null],
    ['encoded letters', '../s%65cond/', '/notes/logs/second/'],
    ['another site', 'https://example.org/a?b=c#d', 'https://example.org/a?b=c#d'],
    ['a mail address', 'mailto:bench@example.org', 'mailto:bench@example.org'],
  ])('to %s gets its address on the site', async (_title, written, address) => {
    const { html, problems } = await proseOf(`A [link](${written}).\n`, around, '/notes/');
    if (address === null) expect(problems).toContain('error dangling-link');
    else
      expect({ html, problems }).toEqual({
        html: `<p>A <a href="${address}">link</a>.</p>`,
        problems: '\n\n',
      });
  });

  const nothing = (written: string, hint = 'Write the relative path of a record, capture or static file.') =>
    `error dangling-link\n  The link "${written}" leads to nothing in this journal.\n  ${hint}`;
  const scheme = (written: string) =>
    `error link-scheme\n  A link to "${written}" is refused.\n  Links may begin with https:, http: or mailto:, or name a record or file of the journal.`;
  const outside = (written: string) =>
    `error outside-journal\n  "${written}" leads out of the journal's folder; nothing outside is published.\n  Copy the file into the journal.`;
  const unpublished = (written: string) =>
    `error dangling-link\n  The file "${written}" is part of the journal, but it is not published.\n  Declare it under captures: of a log, or put it into the folder static.`;

  test.each([
    ['nothing', '', nothing('')],
    ['a record that is not there', '../third/index.md', nothing('../third/index.md')],
    ['a misspelt record', '../secnd/index.md', nothing('../secnd/index.md', 'Did you mean logs/second?')],
    ['a misspelt id', 'amplifiers/turn', nothing('amplifiers/turn', 'Did you mean amplifiers/tern?')],
    [
      'a misspelt capture',
      '../second/tune.csv',
      nothing('../second/tune.csv', 'Did you mean logs/second/tone.csv?'),
    ],
    ['a page by a relative path', 'methods', nothing('methods')],
    ['a folder of records', '../', nothing('../')],
    ['a query', '?all', nothing('?all')],
    ['a path of the machine', '/etc/passwd', nothing('/etc/passwd')],
    ['signs that mean nothing', '%zz', nothing('%zz')],
    ['a line break in disguise', 'java%0Ascript:x', nothing('java%0Ascript:x')],
    ['the settings', '../../journal.yaml', unpublished('../../journal.yaml')],
    ['a capture file that no log declares', '../second/unused.csv', unpublished('../second/unused.csv')],
    ['a picture', 'bench.svg', unpublished('bench.svg')],
    ['a file outside', '../../../secret.md', outside('../../../secret.md')],
    [
      'a file outside in disguise',
      '%2e%2e/%2e%2e/%2e%2e/secret.md',
      outside('%2e%2e/%2e%2e/%2e%2e/secret.md'),
    ],
    ['a drive', '<C:\\x>', scheme('C:\\x')],
    ['a script', 'javascript:alert(1)', scheme('javascript:alert(1)')],
    ['a script in other letters', 'JaVaScRiPt:x', scheme('JaVaScRiPt:x')],
    ['a script in disguise', '&#106;avascript:x', scheme('javascript:x')],
    ['data', 'data:text/html,x', scheme('data:text/html,x')],
    ['a file address', 'file:///etc/passwd', scheme('file:///etc/passwd')],
    ['a host without a scheme', '//example.org', scheme('//example.org')],
    ['a host behind a backslash', '</\\example.org>', scheme('/\\example.org')],
  ])('to %s is refused', async (_title, written, expected) => {
    const { problems } = await proseOf(`A [link](${written}).\n`, around);
    expect(problems).toBe(`\nlogs/first/index.md:7:3 ${expected}\n`);
  });

  test('between angle brackets, bare, in a footnote, a table and a heading is checked like others', async () => {
    const body = `<https://example.org/a> https://example.org/b <javascript:x>

## [Second](../second/index.md)

Text[^1].

| [a](gone.md) |
| --- |

[^1]: [note](gone.md)
`;
    const { html, problems } = await proseOf(body, around);
    expect(html).toContain('<a href="https://example.org/a">https://example.org/a</a>');
    expect(html).toContain('<a href="https://example.org/b">https://example.org/b</a>');
    expect(html).toContain('<a href="/logs/second/">Second</a>');
    expect(problems).toBe(`
logs/first/index.md:7:47 ${scheme('javascript:x')}
logs/first/index.md:13:3 ${nothing('gone.md')}
logs/first/index.md:16:7 ${nothing('gone.md')}
`);
  });

  test('by reference gets its address, and is told where its target is written', async () => {
    const body = 'A [link][one], [two].\n\n[one]: ../second/index.md "Second"\n[two]: gone.md\n';
    const { html, problems } = await proseOf(body, around);
    expect(html).toContain('<a href="/logs/second/" title="Second">link</a>');
    expect(problems).toBe(`\nlogs/first/index.md:10:1 ${nothing('gone.md')}\n`);
  });
});

describe('a link to a place on a page', () => {
  const leads = (written: string, more: Files = {}) =>
    proseOf(`## Here\n\nA [link](${written}).\n`, { ...around, ...more });

  test.each([
    '#here',
    '#list-of-captures',
    '../second/index.md#noise',
    '../second/index.md#what-is-left-of-66-kω',
    '../second/index.md#what-is-left-of-66-k%CF%89',
    'logs/second/tone#provenance',
    'amplifiers/tern/v1#decisions',
    '/methods/#thd',
    '/parts/',
    '#',
  ])('%s leads to a heading or a section of the page', async (written) => {
    expect((await leads(written)).problems).toBe('\n\n');
  });

  test.each([
    ['#her', 'Did you mean #here?'],
    ['#elsewhere', 'Headings there: #here.'],
    ['../second/index.md#nois', 'Did you mean #noise?'],
    ['../second/#harmonics', 'Headings there: #noise, #what-is-left-of-66-kω.'],
    ['logs/second/tone#provenence', 'Did you mean #provenance?'],
    ['amplifiers/tern/v1#output', 'Leave out the # and what follows it.'],
    ['/methods/#thdd', 'Did you mean #thd?'],
  ])('%s is refused with the nearest one', async (written, hint) => {
    expect((await leads(written)).problems).toBe(
      `\nlogs/first/index.md:9:3 error dangling-link\n  The link "${written}" leads to a page, but not to a place on it.\n  ${hint}\n`,
    );
  });

  test('finds the headings of MDX, and does not look for places in components of its own', async () => {
    const { 'logs/second/index.md': second, ...others } = around;
    const linked = async (mdx: string, written: string) => {
      const body = `A [link](${written}).\n`;
      const record = {
        'journal.yaml': 'title: A\nauthor: B\nmdx: true\n',
        'logs/first/index.md': log('', body),
      };
      return problemsOf({ ...others, ...record, 'logs/second/index.mdx': `${second}\n${mdx}` });
    };
    expect(await linked('## More **of** it', '../second/index.mdx#more-of-it')).toBe('\n\n');
    expect(await linked('## More', '../second/index.mdx#mor')).toContain('Did you mean #more?');
    const own = 'import Dial from "./Dial.astro";\n\n<Dial />\n';
    expect(await linked(own, '../second/index.mdx#dial')).not.toContain('dangling-link');
  });

  test('into a record that cannot be read is told by that record alone', async () => {
    const found = await leads('../second/index.md#nothing', { 'logs/second/index.md': 'no frontmatter' });
    expect(found.problems).not.toContain('dangling-link');
    const broken = log('', '\n## Place\n\n<Chart\n');
    const files = { 'journal.yaml': 'title: A\nauthor: B\nmdx: true\n', 'logs/third/index.mdx': broken };
    const other = await leads('../third/index.mdx#place', files);
    expect(other.problems).toContain('logs/third/index.mdx');
    expect(other.problems).not.toContain('dangling-link');
  });
});

test('a heading that would have the address of a section of its page is a warning at the heading', async () => {
  const warned = async (body: string) => (await proseOf(body, around)).problems;
  expect(await warned('Text\n\n## Repeats\n\n### Noise\n\n> ## Captures\n')).toBe(`
logs/first/index.md:9:1 warning heading-taken
  The heading "Repeats" would have the address #repeats, which pages of this kind keep for a section of their own.
  Word the heading differently.
logs/first/index.md:13:3 warning heading-taken
  The heading "Captures" would have the address #captures, which pages of this kind keep for a section of their own.
  Word the heading differently.
`);
  expect(await warned('## Findings\n\n## Findings\n\nA note[^1].\n\n[^1]: Below.\n')).toBe('\n\n');
});

describe('a picture', () => {
  test.each([
    ['beside the log', 'bench.svg', './bench.svg'],
    ['beside the log, with a dot', './bench.png', './bench.png'],
    ['of another log', '../second/bench.svg', '../second/bench.svg'],
    ['with a space in its name', '<my bench.svg>', './my bench.svg'],
    ['with an encoded space', 'my%20bench.svg', './my bench.svg'],
  ])('%s is handed to the site by its relative path', async (_title, written, src) => {
    const { html, problems } = await proseOf(`![The bench](${written})\n`, around);
    expect(problems).toBe('\n\n');
    expect(html).toContain(`&#x22;src&#x22;:&#x22;${src}&#x22;,&#x22;alt&#x22;:&#x22;The bench&#x22;`);
    expect(html).toContain('loading&#x22;:&#x22;eager');
  });

  test('by reference is a picture, not a link', async () => {
    const { html, problems } = await proseOf('![The bench][b]\n\n[b]: bench.svg\n', around);
    expect(problems).toBe('\n\n');
    expect(html).toContain('&#x22;src&#x22;:&#x22;./bench.svg&#x22;');
  });

  const absent = (written: string, hint = 'Put the file beside the record and name it by a relative path.') =>
    `error image-missing\n  The picture "${written}" does not exist.\n  ${hint}`;
  const foreign = (written: string) =>
    `error image-remote\n  The picture "${written}" is not a file of this journal.\n  Copy the picture into the journal.`;
  const kind = (written: string) =>
    `error image-kind\n  The file "${written}" is not a picture that a page can show.\n  Pictures end in .svg, .png, .jpg, .webp, .avif, .gif or .tiff.`;

  test.each([
    ['that is missing', 'gone.svg', absent('gone.svg')],
    ['that is misspelt', 'bensh.svg', absent('bensh.svg', 'Did you mean bench.svg or bench.png?')],
    [
      'that lies elsewhere',
      '../second/bensh.svg',
      absent('../second/bensh.svg', 'Did you mean ../second/bench.svg?'),
    ],
    [
      'named from the root',
      '/logs/first/bench.svg',
      absent('/logs/first/bench.svg', 'Did you mean bench.svg or bench.png or my bench.svg?'),
    ],
    ['without a name', '', absent('')],
    ['with signs that mean nothing', '%zz.png', absent('%zz.png')],
    ['of another host', 'https://example.org/a.png', foreign('https://example.org/a.png')],
    ['of another host without a scheme', '//example.org/a.png', foreign('//example.org/a.png')],
    ['in the text', 'data:image/png;base64,AAAA', foreign('data:image/png;base64,AAAA')],
    ['that is a record', 'index.md', kind('index.md')],
    ['that is a capture', '../second/tone.csv', kind('../second/tone.csv')],
    [
      'outside',
      '../../../a.png',
      `error outside-journal\n  "../../../a.png" leads out of the journal's folder; nothing outside is published.\n  Copy the file into the journal.`,
    ],
  ])('%s is refused', async (_title, written, expected) => {
    const { problems } = await proseOf(`So ![a picture](${written}).\n`, around);
    expect(problems).toBe(`\nlogs/first/index.md:7:4 ${expected}\n`);
  });

  test.each([
    [
      'a picture that is none',
      'a.png',
      'nonsense',
      'The picture "a.png" cannot be read as a picture.\n  Export it again.',
    ],
    ['an empty picture', 'a.jpg', '', 'The picture "a.jpg" cannot be read as a picture.\n  Export it again.'],
    [
      'a drawing without a size',
      'a.svg',
      '<svg xmlns="http://www.w3.org/2000/svg"></svg>',
      'The drawing "a.svg" does not state its size.\n  Give its svg element a viewBox, or a width and a height.',
    ],
  ])('%s is refused, as no page can be made with it', async (_title, name, content, expected) => {
    const { problems } = await proseOf(`![A picture](${name})\n`, { [`logs/first/${name}`]: content });
    expect(problems).toBe(`\nlogs/first/index.md:7:1 error image-broken\n  ${expected}\n`);
  });

  test.each([
    ['a width and a height', '<?xml version="1.0"?>\n<!-- bench -->\n<svg width="4" height="3"/>'],
    ['a height and a width', '<svg\n  height="3"\n  width="4"/>'],
    ['a view box', "<svg viewBox='0 0 4 3'/>"],
  ])('a drawing with %s states its size', async (_title, content) => {
    expect((await proseOf('![A](a.svg)\n', { 'logs/first/a.svg': content })).problems).toBe('\n\n');
  });

  test('without a text for those who cannot see it is a warning', async () => {
    const { problems } = await proseOf('![](bench.svg)\n\n![ ][b]\n\n[b]: bench.svg\n', around);
    const warning = (place: string, name: string) => `
logs/first/index.md:${place} warning image-alt
  The picture "${name}" has no text for those who cannot see it.
  Write what it shows between the square brackets: ![what it shows](picture.jpg).`;
    expect(problems).toBe(`${warning('7:1', 'bench.svg')}${warning('9:1', 'b')}\n`);
  });
});
