import fc from 'fast-check';
import { expect, test } from 'vitest';
import { csvText } from '../../src/site/csv-text.ts';
import { readCsv } from '../support/csv.ts';

const cellOf = (cell: string | number) => readCsv(csvText(['a'], [[cell]]))[0]?.['a'];

test.each([
  ['a formula', '=1+1'],
  ['a link', '=HYPERLINK("https://example.org","x")'],
  ['a plus', '+cmd|calc'],
  ['a minus', '-2+3'],
  ['an at sign', '@SUM(A1)'],
  ['spaces before it', '  =1+1'],
  ['a tab', '\t=1+1'],
  ['a carriage return', '\r=1+1'],
  ['a line feed', '\n=1+1'],
  ['an equals sign of full width', '＝1+1'],
])('a text that begins like a formula gets an apostrophe before it: %s', (_title, text) => {
  expect(cellOf(text)).toBe(`'${text}`);
});

test.each([
  ['a number', -1.5, '-1.5'],
  ['a small number', -1e-12, '-1e-12'],
  ['a number in a text', '-1.5', '-1.5'],
  ['a signed exponent in a text', '+2e-3', '+2e-3'],
  ['a word', 'tone-1w', 'tone-1w'],
  ['a typographic minus', '−3 dB at 20 Hz', '−3 dB at 20 Hz'],
  ['nothing', '', ''],
])('other cells stay as they are: %s', (_title, cell, written) => {
  expect(cellOf(cell)).toBe(written);
});

test('no cell of any text begins a formula', () => {
  const text = fc.string({
    unit: fc.constantFrom('=', '+', '-', '@', '\t', '\r', '\n', ' ', '"', ',', 'A', '1'),
  });
  fc.assert(
    fc.property(text, (written) => {
      const cell = cellOf(`${written}x`) ?? '';
      expect(cell).toMatch(/^(?:'|(?!\s*[=+\-@]|[\t\r\n]))/);
    }),
  );
});
