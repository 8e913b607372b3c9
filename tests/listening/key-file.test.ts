import { describe, expect, test } from 'vitest';
import { keyText, readKey, type SessionKey, trialSheet } from '../../src/listening/index.ts';

const key: SessionKey = {
  ...{ session: 'listening/2026-01-20-two', task: 'discrimination', salt: '0123456789abcdef'.repeat(2) },
  order: ['old', 'new', 'new'],
};

/** The form of a key file, which the hashes in old records depend on. */
const written = `order of a listening session
session listening/2026-01-20-two
task discrimination
salt 0123456789abcdef0123456789abcdef
1 old
2 new
3 new
`;

describe('a key file', () => {
  test('has a form that stays, and is read back', () => {
    expect(keyText(key)).toBe(written);
    expect(readKey(written)).toEqual({ key });
    const preference: SessionKey = { ...key, task: 'preference' };
    expect(readKey(keyText(preference))).toEqual({ key: preference });
  });

  test.each([
    ['another title', written.replace('order of', 'Order of'), 1],
    ['no session', written.replace(/session \S+/, 'session'), 2],
    ['a task that is none', written.replace('task discrimination', 'task guessing'), 3],
    ['too little salt', written.replace(/salt \w+/, 'salt 0123'), 4],
    ['a trial left out', written.replace('2 new\n', ''), 6],
    ['a line more', `${written}\n`, 8],
    ['Windows line ends', written.replaceAll('\n', '\r\n'), 1],
    ['nothing in it', '', 1],
    ['no trial', written.slice(0, written.indexOf('1 old')), 1],
  ])('with %s is a fault at its line', (_, text, line) => {
    expect(readKey(text)).toMatchObject({ line, fault: { rule: 'listening-key' } });
  });
});

describe('a trial sheet', () => {
  const sheet = (changes: Partial<SessionKey>) =>
    trialSheet({
      ...{
        key: { ...key, ...changes },
        alternatives: ['old', 'new'],
        sha256: 'f00d',
        notice: 'Mind the voltages.',
      },
    });

  test('names what to play in each trial, leaves room for the answer, and carries hash and notice', () => {
    const text = sheet({});
    expect(text).toMatch(/^2 +new +_+ +_+$/m);
    expect(text).toContain('\nMind the voltages.\n');
    expect(text.endsWith('\nSHA-256 of the key file:\nf00d\n')).toBe(true);
    expect(text).toContain('1. 3 trials were fixed beforehand');
  });

  test('has no line that a page of A4 would cut, and loses no word by that', () => {
    const notice =
      'Follow your local codes, and leave mains and high-voltage work to qualified people. '.repeat(3);
    const facts = { key, alternatives: ['old', 'new'] as const, sha256: 'f'.repeat(64), notice };
    const text = trialSheet(facts);
    // Twelve characters to the inch on 17 cm are 80.
    expect(Math.max(...text.split('\n').map(({ length }) => length))).toBeLessThanOrEqual(80);
    expect(text.replaceAll(/\s+/g, ' ')).toContain(notice.trim());
    expect(text).toContain('\n2. In each trial play the one that the line names,');
    expect(text).toMatch(/\n {3}\S/);
  });

  test('of a preference test plays both, in the order drawn', () => {
    expect(sheet({ task: 'preference' })).toMatch(/^1 +old +new +_+ +_+$/m);
    expect(sheet({ task: 'preference' })).toMatch(/^2 +new +old +_+ +_+$/m);
  });
});
