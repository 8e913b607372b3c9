import { expect, test } from 'vitest';
import { questionQuery, readQuestion } from '../../src/browser/search/address.ts';
import { hasWords } from '../../src/browser/search/has-words.ts';
import { outcomeText } from '../../src/browser/search/words.ts';

test('a question comes back from the address that it was written to', () => {
  for (const question of [
    { text: '2A3', kind: '' },
    { text: 'H3 & 5 % + "grid"', kind: 'capture' },
    { text: 'Ω', kind: 'part' },
  ])
    expect(readQuestion(questionQuery(question))).toEqual(question);
  expect(questionQuery({ text: '', kind: 'log' })).toBe('');
  expect(readQuestion('')).toEqual({ text: '', kind: '' });
});

test('the outcome says how many were found, of which kind, or what to try', () => {
  const found = { text: '2A3', shown: 3, all: 13, kind: null };
  expect(outcomeText(found)).toBe('13 results for “2A3”.');
  expect(outcomeText({ ...found, shown: 1, all: 1 })).toBe('1 result for “2A3”.');
  expect(outcomeText({ ...found, kind: 'Logs' })).toBe('Logs: 3 of 13 results for “2A3”.');
  expect(outcomeText({ ...found, shown: 0, all: 0 })).toMatch(/^Nothing has all of the words “2A3”\. Try/);
});

test.each([
  ['EL34', true],
  ['el34 Windings', true],
  ['winder', true],
  ['“300.0”', true],
  ['EL84', false],
  ['300B', false],
  ['xylophone', false],
  ['EL34 xylophone', false],
])('a page about the winding of an EL34 at 300.0 V, sine x, has the words %s: %s', (text, has) => {
  expect(hasWords('The winding for an EL34/6CA7 at 300.0 V; sine x.', text)).toBe(has);
});
