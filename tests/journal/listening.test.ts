import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { keyText, type SessionKey } from '../../src/listening/index.ts';
import { type Files, log, problemsOf, smallJournal, writeFiles } from '../support/journal.ts';

const file = 'listening/2026-01-20-two.md';
const keyFile = 'listening/2026-01-20-two.key.txt';

/** A session of two alternatives; `keys` are lines of frontmatter from line 11 on. */
const session = (keys = '') => `---
title: Two of them
date: 2026-01-20
amplifier: amplifiers/tern
question: Can they be told apart?
source: The bench loudspeaker
listening: blind
alternatives:
  - { id: old, title: Old, capture: logs/first/old }
  - { id: new, title: New, capture: logs/first/new }
${keys}---
`;

/** THD of so many per cent at 20 Hz, falling to a tenth of it at 2 kHz. */
const sweep = (percent: number) =>
  `${['f (Hz),load (V),THD (%)', ...[20, 63, 125, 250, 500, 2000].map((hertz) => `${hertz},2.83,${(percent * Math.sqrt(20 / hertz)).toFixed(5)}`)].join('\n')}\n`;

const captures = log(`captures:
  - { file: old.csv, title: Old, kind: frequency-sweep }
  - { file: new.csv, title: New, kind: frequency-sweep }
`);
const files: Files = {
  'logs/first/index.md': captures,
  'logs/first/old.csv': sweep(1),
  'logs/first/new.csv': sweep(2),
};

const faults = (keys: string, more: Files = {}) => problemsOf({ ...files, [file]: session(keys), ...more });

async function opened(keys: string, more: Files = {}) {
  const folder = writeFiles({ ...smallJournal, ...files, [file]: session(keys), ...more });
  const { journal, problems } = await openJournal(folder);
  return { session: journal?.listening[0], problems };
}

const trialsOf = (played: readonly string[], answers: readonly string[] = played) =>
  `trials:\n${played.map((one, i) => `  - { played: ${one}, answer: ${answers[i]} }\n`).join('')}`;

describe('a session', () => {
  test('counts right answers, and judges them where it is blind', async () => {
    const five = ['old', 'new', 'new', 'old', 'new'];
    const { session: found, problems } = await opened(`plannedTrials: 5\n${trialsOf(five)}`);
    expect(problems).toEqual([]);
    expect(found?.result).toMatchObject({ count: { successes: 5, trials: 5 }, planning: 'kept' });
    // Five of five by guessing: 1/32.
    expect(found?.result.judged?.pValue).toBe(1 / 32);
    const wrong = await opened(trialsOf(five, ['new', 'new', 'new', 'old', 'new']));
    expect(wrong.session?.result).toMatchObject({ count: { successes: 4 }, planning: 'not fixed' });
  });

  test('that is sighted is not judged', async () => {
    const sighted = session(trialsOf(['old', 'new', 'new', 'old', 'new'])).replace(': blind', ': sighted');
    const { session: found } = await opened('', { [file]: sighted });
    expect(found?.result.judged).toBeNull();
    expect(found?.result.count.successes).toBe(5);
  });

  test('of preference counts the choices of the first alternative, whichever was played first', async () => {
    const keys = `task: preference\n${trialsOf(['old', 'new', 'new'], ['old', 'old', 'new'])}`;
    expect((await opened(keys)).session?.result.count).toMatchObject({ successes: 2, trials: 3 });
  });

  test('has its level difference by voltage or by meter', async () => {
    const levels = (by: string, one: string, other: string) =>
      `levelMatching:\n  by: ${by}\n  signal: 1 kHz\n  target: 0.1 dB\n  readings: [ { of: old, value: ${one} }, { of: new, value: ${other} } ]\n`;
    const voltage = await opened(levels('voltage', '2 V', '1 V'));
    // 20 lg 2, to the rounding of the arithmetic.
    expect(voltage.session?.levels?.differenceDb).toBeCloseTo(6.0206, 5);
    const meter = await opened(levels('meter', '84 dB', '84.5 dB'));
    expect(meter.session?.levels).toMatchObject({ differenceDb: 0.5, louder: 'new', isWithin: false });
    expect(await faults(levels('voltage', '84 dB', '84 dB'))).toContain(`${file}:15:33 error quantity`);
    expect(await faults(levels('voltage', '0 V', '1 V'))).toContain('A value above zero is expected here.');
  });

  test('sets the distortion of the same octaves beside what was heard in a band', async () => {
    const keys = `notes:
  - { band: [ 100 Hz, 300 Hz ], of: old, heard: More weight. }
  - { heard: Nothing else. }
  - { band: [ 100 Hz, 300 Hz ], of: new, heard: Less weight. }
  - { band: [ 5 kHz, 10 kHz ], heard: The same. }
`;
    const { session: found, problems } = await opened(keys);
    expect(problems).toEqual([]);
    const [low, high] = found?.heard ?? [];
    expect(low?.notes.map(({ heard }) => heard)).toEqual(['More weight.', 'Less weight.']);
    expect(low?.octavesHz).toEqual([125, 250]);
    const [old, other] = low?.measured ?? [];
    // r² = 1e-4 · 20/f between f₁ and f₂ has the mean 20e-4 (1/f₁ − 1/f₂)/ln(f₂/f₁); the bands of 125 Hz and 250 Hz
    // reach from 1000 · 10^(0.3·−3.5) to 1000 · 10^(0.3·−1.5) Hz. The columns have five decimals.
    const [from, to] = [1000 * 10 ** -1.05, 1000 * 10 ** -0.45];
    const mean = Math.sqrt((20e-4 * (1 / from - 1 / to)) / Math.log(to / from));
    expect(Math.abs((old?.thd ?? 0) / mean - 1)).toBeLessThan(1e-4);
    expect(Math.abs((other?.thd ?? 0) / mean / 2 - 1)).toBeLessThan(1e-4);
    expect(high).toMatchObject({ octavesHz: [], measured: [] });
  });
});

describe('what a session names and is not there is a fault at its line', () => {
  test.each([
    [
      'an alternative played',
      'trials:\n  - { played: odl, answer: new }\n',
      '12:15',
      'There is no alternative "odl"',
    ],
    [
      'an alternative answered',
      'trials:\n  - { played: old, answer: both }\n',
      '12:28',
      'There is no alternative "both"',
    ],
    ['a passage', 'notes:\n  - { passage: piano, heard: A note. }\n', '12:16', 'There is no passage "piano"'],
    ['a decision', 'decision: decisions/0009-none\n', '11:11', 'decisions/0009-none'],
    [
      'a second reading of one alternative',
      'levelMatching:\n  by: voltage\n  signal: 1 kHz\n  target: 0.1 dB\n  readings: [ { of: old, value: 1 V }, { of: old, value: 1 V } ]\n',
      '15:46',
      'Both readings are of "old".',
    ],
    [
      'a band that ends before it begins',
      'notes:\n  - { band: [ 2 kHz, 1 kHz ], heard: A note. }\n',
      '12:13',
      'does not begin below its end',
    ],
    ['an aim of one half', 'aim: { share: 50 %, power: 80 % }\n', '11:15', 'A share from 55 % to 100 %'],
  ])('%s', async (_, keys, place, text) => {
    const found = await faults(keys);
    expect(found).toContain(`${file}:${place} error`);
    expect(found).toContain(text);
  });

  test('a capture, a version and the amplifier', async () => {
    const broken = session()
      .replace('logs/first/old', 'logs/first/odl')
      .replace('title: New,', 'title: New, version: amplifiers/tern/v9,')
      .replace('amplifiers/tern\n', 'amplifiers/turn\n');
    const found = await faults('', { [file]: broken });
    expect(found).toContain(`${file}:9:37 error`);
    expect(found).toContain('logs/first/odl');
    expect(found).toContain(`${file}:10:37 error`);
    expect(found).toContain(`${file}:4:12 error`);
  });

  test('a capture that has no bands', async () => {
    const level = 'power (W),THD (%)\n0.1,0.1\n1,0.2\n2,0.4\n';
    const found = await faults('', {
      'logs/first/index.md': captures.replace('New, kind: frequency-sweep', 'New, kind: level-sweep'),
      'logs/first/new.csv': level,
    });
    expect(found).toContain(`${file}:10:37 error listening-capture`);
    const channel = session().replace('logs/first/new', 'logs/first/new#grid');
    expect(await faults('', { [file]: channel })).toContain('Write logs/first/new#load.');
  });
});

describe('a sealed order', () => {
  const order = ['old', 'new', 'new'];
  const key: SessionKey = {
    ...{
      session: 'listening/2026-01-20-two',
      task: 'discrimination',
      salt: '0123456789abcdef'.repeat(2),
      order,
    },
  };
  const hashOf = (text: string) => createHash('sha256').update(text).digest('hex');
  const sealed = (of: SessionKey = key, planned = 3) =>
    `plannedTrials: ${planned}\nkeySha256: ${hashOf(keyText(of))}\n`;
  const withKey = (of: SessionKey = key): Files => ({ [keyFile]: keyText(of) });

  test('is sealed until its key file lies beside the record, and verified then', async () => {
    expect((await opened(sealed())).session?.sealing).toBe('sealed');
    const { session: found, problems } = await opened(sealed() + trialsOf(order), withKey());
    expect(problems).toEqual([]);
    expect(found?.sealing).toBe('verified');
    expect((await opened('')).session?.sealing).toBe('not sealed');
  });

  test('that was held without its key file is a warning', async () => {
    expect(await faults(sealed() + trialsOf(order))).toContain(`${file}:12:12 warning listening-key`);
    expect(await faults(sealed())).toBe('\n\n');
  });

  test('whose key file lies open before any trial is on record is a warning, and no longer sealed', async () => {
    expect(await faults(sealed(), withKey())).toContain(`${file}:12:12 warning listening-key`);
    expect((await opened(sealed(), withKey())).session?.sealing).toBe('not sealed');
  });

  test('with a changed key file is an error at the hash', async () => {
    const changed = { [keyFile]: keyText(key).replace('3 new', '3 old') };
    const found = await faults(sealed() + trialsOf(['old', 'new', 'old']), changed);
    expect(found).toContain(`${file}:12:12 error listening-key`);
    expect((await opened(sealed(), changed)).session?.sealing).toBe('sealed');
  });

  test('that is no key file, though hashed, is an error at its own line', async () => {
    const text = keyText(key).replace('2 new', 'two new');
    const keys = `plannedTrials: 3\nkeySha256: ${hashOf(text)}\n`;
    expect(await faults(keys, { [keyFile]: text })).toContain(`${keyFile}:6:1 error listening-key`);
  });

  test('differs from a trial at the line of that trial, and ends before those that were added', async () => {
    const found = await faults(sealed() + trialsOf(['old', 'old', 'new', 'new']), withKey());
    expect(found).toContain(`${file}:15:15 error listening-key\n  By the key file, trial 2 played "new".`);
    expect(found).toContain(`${file}:17:15 error listening-key\n  The key file ends after 3 trials`);
  });

  test('belongs to one session, task and number of trials', async () => {
    const other: SessionKey = { ...key, session: 'listening/2026-01-21-other', task: 'preference' };
    const found = await faults(sealed(other, 4), withKey(other));
    expect(found).toContain('drawn for the session listening/2026-01-21-other');
    expect(found).toContain('drawn for the task "preference"');
    expect(found).toContain(`${file}:11:16 error listening-key\n  The key file holds 3 trials`);
  });

  test('whose hash was left out of the record is an error', async () => {
    expect(await faults('plannedTrials: 3\n', withKey())).toContain(`${file}:1:1 error listening-key`);
    expect(await faults('keySha256: abc\n')).toContain('A SHA-256 has 64');
  });
});
