import katex from 'katex';
import { describe, expect, test } from 'vitest';
import { formulaOptions } from '../../src/journal/prose/formulas.ts';
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

/** Number of children that MathML Core asks for, by element. */
const argumentCounts: Readonly<Record<string, number>> = {
  ...{ mfrac: 2, mroot: 2, msub: 2, msup: 2, munder: 2, mover: 2, msubsup: 3, munderover: 3 },
};

const withFunctions = [
  'U_{\\max}',
  'U^{\\max}',
  'U_{\\min}^{\\max}',
  '\\lim_{x \\to 0} f',
  '\\sum_{\\inf}^{\\sup} x',
  '\\max_{i} x_i',
  'a_{\\sin x}',
  'a_{\\sin}',
  'x_{\\operatorname{rms}}',
  '\\frac{\\sin}{\\cos}',
  '\\frac{U_{\\max}}{\\log}',
  '\\sqrt[\\max]{x}',
  '\\overset{\\lim}{=}',
  '\\underset{\\max}{\\min}',
  '\\underbrace{\\sin}_{\\arg}',
  '\\hat{\\sin}',
  'x_{}',
];

/** Elements of markup in which each is closed, by name and number of children. */
function elementsOf(markup: string): { name: string; children: number }[] {
  const found: { name: string; children: number }[] = [];
  const open: { name: string; children: number }[] = [];
  for (const [, closing, name = ''] of markup.matchAll(/<(\/?)(\w+)[^>]*>/g)) {
    if (closing === '/') {
      open.pop();
      continue;
    }
    const element = { name, children: 0 };
    const parent = open.at(-1);
    if (parent) parent.children++;
    found.push(element);
    open.push(element);
  }
  return found;
}

const textOf = (markup: string) => markup.replaceAll(/<[^>]*>/g, '').trim();

test.each(withFunctions)(
  'every element of %s has as many children as it takes, and its text as before',
  async (tex) => {
    const html = (await proseOf(`$$\n${tex}\n$$\n`)).html ?? '';
    const fixed = elementsOf(html).filter(({ name }) => name in argumentCounts);
    expect(fixed).not.toEqual([]);
    expect(fixed).toEqual(fixed.map(({ name }) => ({ name, children: argumentCounts[name] })));
    expect(textOf(html)).toBe(textOf(katex.renderToString(tex, { ...formulaOptions, displayMode: true })));
  },
);

describe('bars', () => {
  const elements = async (tex: string) => (await proseOf(`$${tex}$\n`)).html?.match(/<mo[^>]*>[^<]*<\/mo>/g);
  const growing = ' lspace="0em" rspace="0em" stretchy="true" symmetric="true"';

  test('that enclose are the delimiters of MathML, which grow', async () => {
    const bar = `<mo fence="true"${growing}>|</mo>`;
    expect(await elements('\\left| x \\right|')).toEqual([bar, bar]);
    expect(await elements('\\left\\| x \\right\\|')).toEqual(Array(2).fill(bar.replace('|', '‖')));
    const [, between] = (await elements('\\left( x \\middle| y \\right)')) ?? [];
    expect(between).toContain('lspace="0.05em"');
    expect(between).toContain('stretchy="true"');
  });

  test('of a fixed size keep it, and signs of relations stay what they are', async () => {
    const fixed = (await elements('\\lvert x \\rvert')) ?? [];
    expect(fixed).toHaveLength(2);
    for (const bar of fixed) expect(bar).toMatch(/ stretchy="false".*>\|</);
    expect(await elements('a \\mid b \\parallel c')).toEqual(['<mo>∣</mo>', '<mo>∥</mo>']);
  });
});
