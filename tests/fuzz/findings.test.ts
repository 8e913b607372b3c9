import { describe, expect, test } from 'vitest';
import { readYaml } from '../../src/journal/yaml.ts';
import { nearestNames, type Problem } from '../../src/problem/index.ts';
import { parseQuantity } from '../../src/quantity/index.ts';
import { problemLines, readText } from '../capture/helpers.ts';
import { proseOf } from '../support/journal.ts';

/** Places and rules of problems, for short. */
const told = (problems: readonly Problem[]) =>
  problems.map(({ line, column, rule }) => `${line}:${column} ${rule}`);

describe('captures', () => {
  test.each(['constructor', 'toString', '__proto__', 'hasOwnProperty'])(
    'a header or unit that is called %s like something every object has is read as any other',
    (name) => {
      const rows = Array.from({ length: 8 }, (_, i) => `${i},${i}`).join('\n');
      for (const header of [`time (s),a (${name})`, `time (s),${name}`, `${name},a (V)`])
        expect(problemLines(readText(`${header}\n${rows}\n`)).join()).not.toContain('undefined');
    },
  );

  test('a cell of thousands of digits before a letter is looked at once, not once for each digit', () => {
    expect(problemLines(readText(`${'9'.repeat(60_000)}x,1\n1,2\n2,3\n3,4\n`))).not.toEqual([]);
  }, 20_000);
});

describe('quantities', () => {
  test.each(['1e999 V', `${'9'.repeat(400)} V`, '1e305 MV', '-1e999 V'])(
    '%s is no infinite value',
    (text) => {
      expect(parseQuantity(text, 'voltage')).toHaveProperty(
        'fault.message',
        expect.stringContaining('larger number'),
      );
    },
  );

  test('a code of four hundred digits is no infinite value', () => {
    expect(parseQuantity(`${'9'.repeat(400)}k7`, 'resistance')).toHaveProperty('fault');
  });
});

describe('YAML', () => {
  test('lines that end in carriage returns alone are lines', () => {
    expect(told(readYaml('a: 1\rb: 2\rb: 3\r', 'journal.yaml').problems)).toEqual(['3:1 yaml-syntax']);
  });

  test.each([
    ['lists', '- '.repeat(70)],
    ['brackets', `a: ${'['.repeat(70)}`],
    ['groups', Array.from({ length: 70 }, (_, i) => `${' '.repeat(i)}a:`).join('\n')],
    ['questions', '? '.repeat(70)],
    ['a hundred thousand brackets', `a: ${'['.repeat(100_000)}`],
  ])('%s nested more than 64 deep are refused at the place where that is reached', (_title, text) => {
    expect(readYaml(text, 'a.md').problems.map(({ rule }) => rule)).toEqual(['yaml-depth']);
  });

  test('64 levels are read', () => {
    expect(readYaml(`a: ${'['.repeat(60)}${']'.repeat(60)}`, 'a.md').problems).toEqual([]);
  });

  test('a hundred thousand keys are refused before they are compared with each other', () => {
    const text = Array.from({ length: 100_000 }, (_, i) => `k${i}: 1`).join('\n');
    expect(told(readYaml(text, 'a.md').problems)).toEqual(['10001:1 yaml-size']);
  });

  test('of many faults the first twenty are told, and how many more there are', () => {
    const { problems } = readYaml('- *a\n'.repeat(1000), 'a.md');
    expect(problems).toHaveLength(21);
    expect(problems.at(-1)).toMatchObject({
      line: 21,
      column: 3,
      message: expect.stringContaining('980 more'),
    });
  });

  test('an alias within what it names has no end and is refused', () => {
    expect(told(readYaml('a: &a\n  b: [ *a ]\n', 'a.md').problems)).toEqual(['2:8 yaml-syntax']);
  });

  test('an alias may stand behind what it names', () => {
    expect(readYaml('a: &a [ 1 ]\nb: *a\n', 'a.md').value).toEqual({ a: [1], b: [1] });
  });
});

test('very long words are no misspelt names, and are not compared letter by letter', () => {
  expect(nearestNames('x'.repeat(1_000_000), ['x'.repeat(999_999)])).toEqual([]);
});

describe('prose that would take out of all proportion to its length', () => {
  const fault = async (body: string) => {
    const { problems } = await proseOf(body);
    return /^\nlogs\/first\/index\.md:(\S+) error (\S+)\n/.exec(problems)?.slice(1).join(' ');
  };

  test.each([
    ['quotes in one another', '> '.repeat(60), '7:1 text-depth'],
    ['lists in one another', `Text.\n\n${'- '.repeat(60)}x`, '9:1 text-depth'],
    [
      'lists indented under one another',
      Array.from({ length: 60 }, (_, i) => `${'    '.repeat(i)}- a`).join('\n'),
      '58:1 text-depth',
    ],
    ['notes in one another', ':::note\n'.repeat(60), '57:1 text-depth'],
    ['brackets in one another', `Text.\n\n${'!['.repeat(60)}`, '9:1 text-depth'],
    ['a very long line', 'x'.repeat(20_001), '7:1 text-size'],
    ['a very long text', 'Words.\n'.repeat(80_000), '7:1 text-size'],
    ['a very wide table', `| a |\n|${'-|'.repeat(200)}\n`, '8:1 text-size'],
    ['backticks without their other halves', runs('`'), '7:1 text-size'],
    ['dollar signs without their other halves', runs('$'), '7:1 text-size'],
    ['emphasis in emphasis', `${'*'.repeat(300)}a${'*'.repeat(300)}`, '7:197 prose'],
    ['a very long formula', `$${'x+'.repeat(2500)}x$`, '7:2 maths'],
  ])('is refused at its place: %s', async (_title, body, expected) => {
    expect(await fault(`${body}\n`)).toBe(expected);
  });

  test('is told apart from much that is plain', async () => {
    const { problems } = await proseOf(
      [
        `- ${'- '.repeat(30)}x`,
        '* * '.repeat(60),
        `${'`a` '.repeat(400)}${'$x$ '.repeat(60)}`,
        `| ${'a | '.repeat(40)}\n|${'-|'.repeat(40)}\n`,
        'A word.\n'.repeat(5000),
      ].join('\n\n'),
    );
    expect(problems).toBe('\n\n');
  });
});

/** Runs of every length, none of which stands twice. */
function runs(mark: string): string {
  const lines = Array.from({ length: 600 }, (_, i) => `a${mark.repeat(i + 1)}`);
  return lines.join('\n');
}

test('code is coloured alike whatever was coloured before it', async () => {
  const markdown = '```markdown\n---\ntitle: A\n---\n```\n';
  const { html: before } = await proseOf(markdown);
  await proseOf('```yaml\ntitle: A\n```\n');
  const { html: after } = await proseOf(markdown);
  expect(before).toContain('token key atrule');
  expect(after).toBe(before);
});

test.each(['cobol', 'no-such-language', '../../x', 'constructor'])(
  'code in a language that is not known is set without colours: %s',
  async (language) => {
    const { html, problems } = await proseOf(`\`\`\`${language}\na < b\n\`\`\`\n`);
    expect(problems).toBe('\n\n');
    expect(html).toMatch(/<code[^>]*>(?:<[^>]*>)*a &(?:lt|#x3C);/);
  },
);
