import { expect, test } from 'vitest';
import { nearestNames } from '../../src/problem/index.ts';

test.each([
  ['titel', ['title', 'date'], ['title']],
  ['frist', ['first', 'last'], ['first']],
  ['jsno', ['json', 'text'], ['json']],
  ['Title', ['title'], ['title']],
  ['captrues', ['captures', 'chapters'], ['captures']],
  ['volume', ['title', 'date'], []],
  ['kHZ', ['kHz', 'Hz', 'V'], ['kHz', 'Hz']],
])('%s among %o is %o', (word, names, near) => {
  expect(nearestNames(word, names)).toEqual(near);
});
