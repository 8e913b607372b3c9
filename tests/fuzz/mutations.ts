import { uniformSource } from '../../src/demo/random.ts';

/** Choices of one case; the same seed makes the same choices. */
export interface Chance {
  below(count: number): number;
  pick<T>(choices: readonly T[]): T;
}

export function chanceOf(seed: number): Chance {
  const uniform = uniformSource(seed);
  for (let warm = 0; warm < 3; warm++) uniform();
  const below = (count: number) => Math.floor(uniform() * count);
  return {
    below,
    pick: (choices) => {
      const [first] = choices;
      if (first === undefined) throw new Error('There is nothing to pick from.');
      return choices[below(choices.length)] ?? first;
    },
  };
}

type Mutation = (text: string, chance: Chance) => string;

/** Words that readers have been known to stumble over. */
const hostile: readonly string[] = [
  ...[
    'NaN',
    'inf',
    '-Infinity',
    '1e999',
    '-1e-999',
    '0x1F',
    '0o17',
    '1_000',
    '012',
    '1,5',
    '1.2.3',
    '−5',
    '٣',
  ],
  ...['9'.repeat(400), '99999999999999999999', '1e', 'e5', '+', '-', '.', ',', ';;', '\t\t', '""', '"', "'"],
  ...['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'null', 'true', 'yes', '~', '-0'],
  ...[
    '{',
    '}',
    '[',
    ']',
    '[[[[[[[[',
    '{{{{',
    '&a [*a]',
    '*a',
    '&a x',
    '<<: *a',
    '!!js/function x',
    '!!binary aGk=',
  ],
  ...[
    '!!set {a}',
    '!!timestamp 2020-01-01',
    '? a\n: b',
    '- - - - x',
    '|',
    '>-',
    '---',
    '...',
    '%YAML 1.1',
    '#',
    ': ',
  ],
  ...[
    '\u0000',
    '\uFEFF',
    '\u2028',
    '\u202E',
    '\uD800',
    '\u0085',
    '\u001b[2J',
    '\r',
    '\r\n',
    '\n',
    '\n\n',
    ' ',
    '\t',
  ],
  ...[
    'x'.repeat(3000),
    'Ω',
    'µV',
    'kΩ',
    '5 k',
    '48 mA',
    '%',
    'dB',
    '1 kHz',
    '4k7',
    '2026-02-30',
    '0000-00-00',
  ],
  ...[
    '../../../etc/passwd',
    '/etc/passwd',
    'C:\\x',
    'CON',
    'tone-1w#speaker',
    '#',
    'a#b#c',
    'amplifiers/heron/v1',
  ],
  ...[
    '<script>x()</script>',
    '<!--',
    ']]>',
    '&#x6A;avascript:',
    '[a](javascript:x)',
    '![](x)',
    '::chart',
    ':::note',
  ],
  ...[
    ':figure[thd]{of="a#b"}',
    '$\\frac{$',
    '$$',
    '`',
    '```',
    '~~~',
    '| a |',
    '|-|',
    '[^1]',
    '[^1]: x',
    '> ',
    '1. ',
  ],
];

const somewhere = (text: string, chance: Chance) => chance.below(text.length + 1);
const linesOf = (text: string) => text.split(/(?<=\n)/);

const mutations: readonly Mutation[] = [
  (text, chance) => text.slice(0, somewhere(text, chance)),
  (text, chance) => text.slice(somewhere(text, chance)),
  ...Array.from(
    { length: 6 },
    (): Mutation => (text, chance) => {
      const at = somewhere(text, chance);
      return text.slice(0, at) + chance.pick(hostile) + text.slice(at + chance.below(4));
    },
  ),
  (text, chance) => {
    const at = somewhere(text, chance);
    return (
      text.slice(0, at) +
      String.fromCharCode(chance.below(chance.pick([32, 128, 0xffff]))) +
      text.slice(at + 1)
    );
  },
  onLines((lines, at) => lines.toSpliced(at, 1)),
  onLines((lines, at) => lines.toSpliced(at, 0, lines[at] ?? '')),
  onLines((lines, at, chance) => lines.toSpliced(at, 0, lines[chance.below(lines.length)] ?? '')),
  onLines((lines, at, chance) => lines.toSpliced(at, 1, ' '.repeat(chance.below(12)) + (lines[at] ?? ''))),
  onLines((lines, at, chance) => lines.toSpliced(at, 1, (lines[at] ?? '').repeat(1 + chance.below(40)))),
  onLines((lines, at, chance) => {
    const cells = (lines[at] ?? '').split(/(?<=[,;:\t])/);
    const cell = chance.below(cells.length);
    return lines.toSpliced(at, 1, cells.toSpliced(cell, chance.below(2), chance.pick(cells)).join(''));
  }),
  (text, chance) =>
    text.replaceAll(
      chance.pick([',', ';', '\t', '.', ':', '"', ' ', '\n', '-']),
      chance.pick([',', ';', '\t', '.', ' ', '', '"', '\r', '\r\n']),
    ),
  (text, chance) =>
    text.replace(/-?\d+(?:\.\d+)?/g, (number) => (chance.below(8) === 0 ? chance.pick(hostile) : number)),
  (text, chance) => chance.pick(hostile).repeat(1 + chance.below(30)) + text,
];

function onLines(change: (lines: string[], at: number, chance: Chance) => string[]): Mutation {
  return (text, chance) => {
    const lines = linesOf(text);
    return change(lines, chance.below(lines.length), chance).join('');
  };
}

/** A text with one to five things wrong with it; one in thirty stays as it is. */
export function mutated(text: string, chance: Chance): string {
  const count = chance.below(30) === 0 ? 0 : 1 + chance.below(5);
  let made = text;
  for (let i = 0; i < count; i++) made = chance.pick(mutations)(made, chance).slice(0, longest);
  return made;
}

const longest = 60_000;

/** The bytes of a text in an encoding that its declaration need not fit, some of them changed. */
export function mutatedBytes(text: string, chance: Chance): Uint8Array {
  const bytes = new Uint8Array(encoded(mutated(text, chance), chance));
  for (let flips = chance.pick([0, 0, 0, 1, 5]); flips > 0 && bytes.length > 0; flips--)
    bytes[chance.below(bytes.length)] = chance.below(256);
  return chance.below(20) === 0 ? bytes.slice(0, chance.below(bytes.length + 1)) : bytes;
}

function encoded(text: string, chance: Chance): Uint8Array {
  const form = chance.below(12);
  if (form === 0) return Buffer.from(`\uFEFF${text}`, 'utf16le');
  if (form === 1) return Buffer.from(`\uFEFF${text}`, 'utf16le').swap16();
  if (form === 2) return Buffer.from(text, 'latin1');
  if (form === 3) return Buffer.from(`\uFEFF${text}`, 'utf8');
  return Buffer.from(text, 'utf8');
}
