import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { claim, decisionWith, measuredFolder, measuredJournal, secondCsv } from '../support/claims.ts';
import { type Files, problemsOf, problemText } from '../support/journal.ts';

const file = 'decisions/0001-tube.md';
const open = 'state: open\n';

const faults = (keys: string, files: Files = {}) =>
  problemsOf({ ...measuredJournal, [file]: decisionWith(keys), ...files });

/** Outcomes of the evidence of a decision in force. */
async function outcomes(...claims: string[]) {
  const keys = `state: decided\ndecision: That one.\nevidence:\n${claims.map((keys) => claim(keys)).join('')}`;
  const { journal, problems } = await openJournal(measuredFolder({ [file]: decisionWith(keys) }));
  const [decision] = journal?.decisions ?? [];
  return { decision, problems, outcomes: decision?.evidence.map(({ judgement }) => judgement.outcome) };
}

const than = 'of: logs/first/new#load\n    than: logs/first/old#load\n    relation: ';

describe('evidence', () => {
  test('is held against captures of any log', async () => {
    const found = await outcomes(
      `${than}lower\n    by: 10 dB`,
      `${than}higher`,
      `${than}lower\n    by: 20 dB`,
    );
    // 0.5 % is 12 dB below 2 %.
    expect(found.outcomes).toEqual(['holds', 'does not hold', 'does not hold']);
    expect(found.decision).toMatchObject({ isBroken: true, number: '0001' });
  });

  test('that fails in a decision in force is a warning at its own line', async () => {
    const { problems } = await outcomes(`${than}lower`, `${than}higher`);
    expect(problems.map(problemText)).toEqual([
      expect.stringMatching(
        /^decisions\/0001-tube\.md:14:5 warning evidence\n {2}The evidence "The second falls\." is not borne out \(does not hold\)\. Second harmonic is 0\.50/,
      ),
    ]);
  });

  test('that fails is an error where the journal is strict, and no fault while the decision is open', async () => {
    const strict = `${measuredJournal['journal.yaml'] as string}strictClaims: true\n`;
    const evidence = `evidence:\n${claim(`${than}higher`)}`;
    expect(
      await faults(`state: decided\ndecision: That.\n${evidence}`, { 'journal.yaml': strict }),
    ).toContain(`${file}:9:5 error evidence`);
    expect(await faults(open + evidence, { 'journal.yaml': strict })).toBe('\n\n');
  });

  test('breaks when a capture changes', async () => {
    const keys = `state: decided\ndecision: That.\nevidence:\n${claim()}`;
    expect(await faults(keys)).toBe('\n\n');
    expect(await faults(keys, { 'logs/first/new.csv': secondCsv(3) })).toContain('warning evidence');
  });

  test('is read from sweeps between their points, never beyond them, and over a band', async () => {
    const sweeps = (keys: string) => `of: logs/first/new-sweep\n    than: logs/first/old-sweep\n    ${keys}`;
    const thd = (keys: string) => `  - says: It falls.\n    figure: thd\n    ${sweeps(keys)}\n`;
    const list = [
      'at: { frequency: 30 Hz }\n    relation: lower\n    by: 5 dB',
      'at: { frequency: 30 Hz }\n    relation: lower\n    by: 7 dB',
      'at: { frequency: 9 Hz }\n    relation: lower',
      'over: [ 20 Hz, 900 Hz ]\n    relation: lower',
      'over: [ 5 Hz, 900 Hz ]\n    relation: lower',
    ];
    const keys = `state: open\nevidence:\n${list.map(thd).join('')}`;
    const { journal, problems } = await openJournal(measuredFolder({ [file]: decisionWith(keys) }));
    expect(problems).toEqual([]);
    const found = journal?.decisions[0]?.evidence.map(({ judgement }) => judgement);
    // The second sweep is 6 dB below the first everywhere.
    expect(found?.map(({ outcome }) => outcome)).toEqual([
      'holds',
      'does not hold',
      'no data',
      'holds',
      'no data',
    ]);
    // 1 % · √(10/30) is 0.577 %; the sweep's columns have five decimals.
    expect(Math.abs((found?.[0]?.decisive?.reference.value ?? 0) - 0.00577)).toBeLessThan(1e-5);
    expect(found?.[2]?.absent).toBe(
      'The sweep runs from 10.0\u00a0Hz to 1.00\u00a0kHz and does not reach 9.00\u00a0Hz.',
    );
    expect(found?.[3]?.places).toBe(3);
  });

  test.each([
    [
      'names something that exists',
      'of: logs/first/odl#load\n    against: 1 %\n    relation: lower',
      '10:9',
      'There is no capture, list of repeats or version "logs/first/odl"',
      'Did you mean logs/first/old?',
    ],
    [
      'of a channel that is not there',
      'of: logs/first/new#laod\n    against: 1 %\n    relation: lower',
      '10:9',
      'There is no channel or stage "laod"',
      'Did you mean load?',
    ],
    [
      'compares with one thing',
      'of: logs/first/new\n    relation: lower',
      '11:15',
      'A claim compares with either than: or against:',
      'Add than:',
    ],
    ['within needs a margin', `${than}within`, '12:15', 'The relation "within" needs by:', 'Add by:'],
    [
      'equal takes no margin',
      `${than}equal\n    by: 1 %`,
      '13:9',
      'The relation "equal" takes no by:.',
      'Write relation: within',
    ],
    [
      'stands beside a value of its own unit',
      'of: logs/first/new\n    against: 1 V\n    relation: lower',
      '11:14',
      'A value in V cannot stand beside this figure',
      'Write the value in per cent',
    ],
    [
      'has a margin that fits its figure',
      `${than}lower\n    by: 1 V`,
      '13:9',
      'This margin does not go with the figure.',
      'Figures in decibels take decibels',
    ],
    [
      'is at a place of a sweep only',
      'of: logs/first/new\n    against: 1 %\n    at: { frequency: 1 kHz }\n    relation: lower',
      '12:9',
      '"logs/first/new" is no sweep over frequency',
      'Name a sweep',
    ],
    ['has a relation that is known', `${than}less`, '12:15', '"less" is not one of', 'Write one of them.'],
    [
      'has a band in order',
      `of: logs/first/new-sweep\n    against: 1 %\n    over: [ 2 kHz, 1 kHz ]\n    relation: lower`,
      '12:11',
      'The band does not begin below its end.',
      'Write the lower frequency first.',
    ],
  ])('%s', async (_title, keys, place, message, hint) => {
    const found = await faults(`${open}evidence:\n${claim(keys)}`);
    expect(found).toContain(`${file}:${place} error`);
    expect(found).toContain(message);
    expect(found).toContain(hint);
  });

  test('says of what it is, while an expectation may be not measured yet', async () => {
    const keys = 'against: 1 %\n    relation: lower';
    expect(await faults(`${open}evidence:\n${claim(keys)}`)).toContain('The key "of" is missing.');
    expect(await faults(`${open}expectations:\n${claim(keys)}`)).toBe('\n\n');
  });
});

describe('a decision', () => {
  test.each([
    ['that was replaced says by which', 'state: replaced by\n', '6:8', 'says by which'],
    [
      'that is not replaced names none',
      `${open}replacedBy: decisions/0001-tube\n`,
      '7:13',
      'is not replaced',
    ],
    ['is dangerous only when withdrawn', `${open}dangerous: true\n`, '7:12', 'Only a withdrawn decision'],
    ['that was made says what it is', 'state: decided\n', '6:8', 'says what it is'],
    [
      'chooses one of its options',
      `${open}options: [ { id: a, title: A } ]\nchosen: b\n`,
      '8:9',
      'There is no option "b"',
    ],
    [
      'names a version that exists',
      `${open}version: amplifiers/tern/v2\n`,
      '7:10',
      'There is no version "amplifiers/tern/v2"',
    ],
    [
      'names parts that exist',
      `${open}options: [ { id: a, title: A, part: parts/iron } ]\n`,
      '7:37',
      'There is no part "parts/iron"',
    ],
    [
      'is replaced by one that exists',
      'state: replaced by\nreplacedBy: decisions/0002-other\n',
      '7:13',
      'There is no decision "decisions/0002-other"',
    ],
  ])('%s', async (_title, keys, place, message) => {
    const found = await faults(keys);
    expect(found).toMatch(new RegExp(`${file.replace('.', '\\.')}:${place} error [\\s\\S]*${message}`));
  });

  test('names an amplifier that exists', async () => {
    const other = decisionWith(open).replace('amplifiers/tern', 'amplifiers/tren');
    const found = await faults('', { [file]: other });
    expect(found).toContain(
      `${file}:4:12 error dangling-reference\n  There is no amplifier "amplifiers/tren"`,
    );
    expect(found).toContain('Did you mean amplifiers/tern?');
  });

  test('has a number of four digits, and no other has the same', async () => {
    const other = { 'decisions/0001-other.md': decisionWith(open), 'decisions/third.md': decisionWith(open) };
    const found = await faults(open, other);
    expect(found).toContain(
      'decisions/0001-tube.md:1:1 error duplicate-id\n  The number 0001 is taken by decisions/0001-other.',
    );
    expect(found).toContain(
      'decisions/third.md:1:1 error record-name\n  The file of a decision begins with its number',
    );
  });

  test('that replaces itself in the end is told once, with the whole circle', async () => {
    const replaced = (by: string) => decisionWith(`state: replaced by\nreplacedBy: ${by}\n`);
    const found = await problemsOf({
      'decisions/0001-a.md': replaced('decisions/0002-b'),
      'decisions/0002-b.md': replaced('decisions/0001-a'),
      'decisions/0003-c.md': replaced('decisions/0001-a'),
    });
    expect(found).toBe(`
decisions/0001-a.md:7:13 error decision-cycle
  The decisions replace each other in a circle: decisions/0001-a → decisions/0002-b → decisions/0001-a.
  The last one is not replaced by any.
`);
  });
});

test('an expectation dated after its capture is told so, at its date', async () => {
  const keys = `date: 2026-01-19\n    ${than}lower`;
  expect(await faults(`${open}expectations:\n${claim(keys)}`)).toContain(
    `${file}:10:11 warning expectation-late`,
  );
  expect(await faults(`${open}expectations:\n${claim(keys.replace('19', '17'))}`)).toBe('\n\n');
});
