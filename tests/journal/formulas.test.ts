import { describe, expect, test } from 'vitest';
import { log, problemsOf, proseOf, settings } from '../support/journal.ts';

const hint = 'Mend the TeX here; a dollar sign that is money is written \\$.';
const cases: [title: string, body: string, place: string, detail: string][] = [
  ['an unknown command', 'A formula $a + \\foo$.', '7:16', 'Undefined control sequence: \\foo.'],
  ['a second formula', '$a$ and $\\foo$', '7:10', 'Undefined control sequence: \\foo.'],
  [
    'a brace that is not closed',
    'So $\\frac{1}{2$ it.',
    '7:15',
    "Unexpected end of input in a macro argument, expected '}'.",
  ],
  ['a displayed formula', '$$\na \\\\\nb + \\foo\n$$', '9:5', 'Undefined control sequence: \\foo.'],
  [
    'a displayed formula in a list',
    '- so\n\n  $$\n  a + \\foo\n  $$',
    '10:7',
    'Undefined control sequence: \\foo.',
  ],
  ['a displayed formula in a quote', '> $$\n> \\foo\n> $$', '8:3', 'Undefined control sequence: \\foo.'],
  ['a code block in TeX', '```math\na\n\\foo\n```', '9:1', 'Undefined control sequence: \\foo.'],
  ['a formula in a table', '| a |\n| --- |\n| $\\foo$ |', '9:4', 'Undefined control sequence: \\foo.'],
  ['a link', 'A $\\href{https://example.org}{x}$.', '7:4', 'The command \\href is not allowed.'],
  ['an address', 'A $\\url{https://example.org}$.', '7:4', 'The command \\url is not allowed.'],
  ['a picture', 'A $\\includegraphics{a.png}$.', '7:4', 'The command \\includegraphics is not allowed.'],
  ['a style', 'A $\\htmlStyle{color: red}{x}$.', '7:4', 'HTML extension is disabled on strict mode.'],
  ['a class', 'A $\\htmlClass{wide}{x}$.', '7:4', 'HTML extension is disabled on strict mode.'],
  [
    'a macro without end',
    'A $\\def\\a{\\a\\a}\\a$.',
    '7:4',
    'Too many expansions: infinite loop or need to increase maxExpand setting.',
  ],
];

describe.each(['md', 'mdx'])('in .%s', (extension) => {
  const file = `logs/second/index.${extension}`;

  test.each(cases)('%s that cannot be set is refused at its place', async (_title, body, place, detail) => {
    const files = { 'journal.yaml': `${settings}mdx: true\n`, [file]: log('', `${body}\n`) };
    expect(await problemsOf(files)).toBe(`
${file}:${place} error maths
  The formula cannot be set: ${detail}
  ${hint}
`);
  });

  test('sound formulas are no problem', async () => {
    const body = 'With $x^2$ and $5\\,\\text{kΩ}$, $µ = 4$, $\\color{#cc0000}x$:\n\n$$\nx = 1\n$$\n';
    const files = { 'journal.yaml': `${settings}mdx: true\n`, [file]: log('', body) };
    expect(await problemsOf(files)).toBe('\n\n');
  });
});

test('formulas become MathML that needs neither style sheet nor script', async () => {
  const { html } = await proseOf('With $x^2$:\n\n$$\nx = 1\n$$\n\n$\\rule{1000em}{1em}$\n');
  expect(html).toContain('<msup><mi>x</mi><mn>2</mn></msup>');
  expect(html).toContain('display="block"');
  expect(html).toContain('width="20em"');
  expect(html).not.toMatch(/style=|<script|1000em"/);
});
