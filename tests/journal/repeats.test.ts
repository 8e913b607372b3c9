import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import {
  type Files,
  log,
  problemsOf,
  problemText,
  settings,
  smallJournal,
  toneCsv,
  writeFiles,
} from '../support/journal.ts';

const first = 'logs/first/index.md';

const tones: Files = {
  'logs/first/a.csv': toneCsv(),
  'logs/first/b.csv': toneCsv().replace(/[^\n]*\n$/, ''),
  'logs/first/c.csv': toneCsv(['grid', 'speaker']),
};

/** Captures a and b with these keys each, and c; what follows begins on line 10. */
const captures = (a: string, b: string) => `captures:
  - { file: a.csv, title: A${a} }
  - { file: b.csv, title: B${b} }
  - { file: c.csv, title: C }
`;

/** The problems of repeats over these captures: `repeats:` is line 10, its first entry lines 11 to 14. */
const faultsOf = (of: string, [a, b] = ['', ''], id = 'again', files: Files = {}) =>
  problemsOf({
    ...tones,
    [first]: log(
      `${captures(a ?? '', b ?? '')}repeats:\n  - id: ${id}\n    title: Again\n    of: ${of}\n    between: leads off and on\n`,
    ),
    ...files,
  });

const differs = (what: string, place = '13:14') => `
${first}:${place} error repeat-differs
  The captures "b" and "a" are not declared alike: they differ in ${what}.
  Repeats are captures of one thing under the same conditions; take the other one out of the list, or correct its declaration.
`;

describe('repeats of captures', () => {
  test('with nothing wrong give no problem', async () => {
    expect(await faultsOf('[ a, b ]')).toBe('\n\n');
  });

  test('of a capture that is not there are refused at its entry', async () => {
    expect(await faultsOf('[ a, bb ]')).toBe(`
${first}:13:14 error dangling-reference
  There is no capture "bb" in this log to be repeated.
  Did you mean b?
`);
  });

  test('of a capture twice are refused at the second', async () => {
    expect(await faultsOf('[ a, b, a ]')).toBe(`
${first}:13:17 error repeat-twice
  The capture "a" stands twice in this list, and a capture does not repeat itself.
  Remove one of the two.
`);
  });

  test('of a copy are refused', async () => {
    const copy = { 'logs/first/b.csv': toneCsv() };
    expect(await faultsOf('[ a, b ]', ['', ''], 'again', copy)).toBe(`
${first}:13:14 error repeat-twice
  The captures "b" and "a" hold the same bytes, so the second is a copy and no repeat.
  Put the file of the other measurement in its place, or take it out of the list.
`);
  });

  test('of one capture are refused', async () => {
    expect(await faultsOf('[ a ]')).toBe(`
${first}:13:9 error value
  There are too few entries; 2 are expected.
`);
  });

  test('that carry the name of a capture are refused', async () => {
    expect(await faultsOf('[ a, b ]', ['', ''], 'c')).toBe(`
${first}:11:9 error duplicate-id
  A capture of this log is called "c" too.
  Give the repeats another id.
`);
  });

  test('without a word about what was done anew are refused', async () => {
    const keys = `${captures('', '')}repeats:\n  - { id: again, title: Again, of: [ a, b ] }\n`;
    expect(await problemsOf({ ...tones, [first]: log(keys) })).toBe(`
${first}:11:5 error missing-key
  The key "between" is missing.
  Add a line "between:" with its value.
`);
  });

  test.each<[string, [string, string], string]>([
    ['the load', [', load: 8 Ω', ', load: 4 Ω'], 'load'],
    ['one load only', ['', ', load: 4 Ω'], 'load'],
    [
      'a condition',
      [', conditions: { level: 1 W }', ', conditions: { level: 2 W }'],
      'the condition "level"',
    ],
    ['a condition only one states', ['', ', conditions: { level: 2 W }'], 'the condition "level"'],
    ['the alternative', [', alternative: 12AX7', ', alternative: 12AT7'], 'alternative'],
    ['the harmonics counted', [', harmonics: 5', ''], 'harmonics'],
    ['kind', ['', ', kind: two-tone, tones: [1 kHz, 2 kHz]'], 'kind, tones'],
  ])('that differ in %s are refused', async (_title, keys, what) => {
    expect(await faultsOf('[ a, b ]', keys)).toContain(differs(what).trim());
  });

  test('that differ in their channels are refused', async () => {
    expect(await faultsOf('[ a, c ]')).toContain(
      '"c" and "a" are not declared alike: they differ in channels.',
    );
  });

  test('that differ in their instrument are refused', async () => {
    const instruments = `${settings}instruments: [ { id: one, name: One }, { id: two, name: Two } ]\n`;
    const keys: [string, string] = [', instrument: one', ', instrument: two'];
    expect(await faultsOf('[ a, b ]', keys, 'again', { 'journal.yaml': instruments })).toBe(
      differs('instrument'),
    );
  });

  test('of a capture that cannot be read are left out, and the capture is told of once', async () => {
    const problems = await faultsOf('[ a, b ]', ['', ''], 'again', { 'logs/first/b.csv': '' });
    expect(problems.match(/ error /g)).toHaveLength(1);
    expect(problems).toContain('logs/first/b.csv');
  });
});

describe('a log with repeats', () => {
  const opened = async (keyFigures: string) => {
    const repeats = 'repeats:\n  - { id: again, title: Again, of: [ a, b ], between: leads off and on }\n';
    const keys = `${captures('', '')}${repeats}keyFigures: [ ${keyFigures} ]\n`;
    const { journal, problems } = await openJournal(
      writeFiles({ ...smallJournal, ...tones, [first]: log(keys) }),
    );
    return { log: journal?.logs[0], problems: problems.map(problemText).join('\n') };
  };

  test('has their mean, and can put it at its top', async () => {
    const { log: one, problems } = await opened(
      '{ figure: thd, of: again#speaker }, { figure: thd, of: c#grid }',
    );
    expect(problems).toBe('');
    const thd = one?.repeats[0]?.repeated.find(({ figure }) => figure.id === 'thd');
    // The tone has 1 % of second harmonic; the second file lacks one row, and the noise is a thousandth of that.
    expect(Math.abs((thd?.figure.value ?? 0) - 0.01)).toBeLessThan(1e-4);
    expect(thd?.count).toBe(2);
    expect(one?.keyFigures.map(({ title, page, anchor }) => [title, page, anchor])).toEqual([
      ['Again', 'logs/first', 'repeats-again'],
      ['C', 'logs/first/c', 'summary'],
    ]);
  });

  test('refuses a figure or a channel that they do not have', async () => {
    expect((await opened('{ figure: thdd, of: again }')).problems).toContain(
      'The capture has no figure "thdd".\n  Did you mean thd?',
    );
    expect((await opened('{ figure: thd, of: again#grid }')).problems).toContain(
      'The capture has no channel "grid".\n  It has: speaker.',
    );
    expect((await opened('{ figure: thd, of: agian }')).problems).toContain('Did you mean again?');
  });
});
