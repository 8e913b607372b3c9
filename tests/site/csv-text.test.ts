import { expect, test } from 'vitest';
import { csvText } from '../../src/site/csv-text.ts';
import { readCsv } from '../support/csv.ts';

test('cells with commas, quotes and line ends are quoted, and numbers read back as they are', () => {
  // RFC 4180, section 2: rules 5 to 7.
  const value = 0.1 + 0.2;
  const text = csvText(
    ['a', 'b', 'c'],
    [
      ['x, y', 'say "so"', value],
      [null, 'one\ntwo', -1e-12],
    ],
  );
  expect(text).toBe('a,b,c\r\n"x, y","say ""so""",0.30000000000000004\r\n,"one\ntwo",-1e-12\r\n');
  expect(readCsv(text)).toEqual([
    { a: 'x, y', b: 'say "so"', c: '0.30000000000000004' },
    { a: '', b: 'one\ntwo', c: '-1e-12' },
  ]);
});
