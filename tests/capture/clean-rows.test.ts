import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCleanRows } from '../../src/capture/clean-rows.ts';
import type { Layout } from '../../src/capture/layout.ts';

const column = (decimalMark: Layout['decimalMark']): Layout => ({
  ...{ delimiter: ';', decimalMark, width: 1, numeric: [0] },
});

/** The numbers of a column of cells, or null where the quick pass leaves them to the strict one. */
function read(cells: readonly string[], decimalMark: Layout['decimalMark'] = '.', lineEnd = '\n') {
  const columns = readCleanRows(cells.join(lineEnd).concat(lineEnd), column(decimalMark), 1);
  return columns && [...(columns[0] ?? [])];
}

const digits = (least: number, most: number) =>
  fc.string({ unit: fc.constantFrom(...'0123456789'), minLength: least, maxLength: most });

/** Numbers as instruments and programs print them, up to more digits and larger exponents than a number can hold. */
const written = fc
  .record({
    sign: fc.constantFrom('', '-', '+'),
    whole: digits(1, 24),
    decimals: fc.oneof(
      fc.constant(''),
      digits(1, 24).map((text) => `.${text}`),
    ),
    exponent: fc.oneof(
      fc.constant(''),
      fc.integer({ min: -330, max: 290 }).map((power) => `e${power}`),
      fc.integer({ min: 0, max: 22 }).map((power) => `E+${String(power).padStart(2, '0')}`),
    ),
  })
  .map(({ sign, whole, decimals, exponent }) => sign + whole + decimals + exponent);

describe('the quick pass over clean rows', () => {
  it('reads each number as the language itself does, to the last bit', () => {
    const cells = fc.array(written, { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(cells, (texts) => {
        expect(read(texts)).toEqual(
          texts.every((text) => Number.isFinite(Number(text))) ? texts.map(Number) : null,
        );
        const finite = texts.filter((text) => Number.isFinite(Number(text)));
        fc.pre(finite.length > 0);
        const commas = finite.map((text) => text.replace('.', ','));
        expect(read(commas, ',')).toEqual(finite.map(Number));
      }),
      { numRuns: 2000 },
    );
  });

  it.each([
    // Halfway cases and ends of the range: IEEE Std 754, binary64, from memory.
    ['9007199254740993', 2 ** 53],
    ['9007199254740995', 2 ** 53 + 4],
    ['0.1e23', 1e22],
    ['1e23', 1e23],
    ['8.533e+68', 8.533e68],
    ['4.9e-324', 5e-324],
    ['2.2250738585072011e-308', 2.225073858507201e-308],
    ['1.7976931348623157e308', Number.MAX_VALUE],
    ['-0.0', -0],
    ['5.', 5],
    ['.5', 0.5],
    ['0000000000000000000000000000001.5', 1.5],
  ])('reads %s as the nearest number there is', (text, value) => {
    // Exact: conversion to the nearest number leaves no choice.
    expect(read([text])).toEqual([value]);
  });

  it('reads numbers with spaces about them, a typographic minus and any of the line ends', () => {
    for (const lineEnd of ['\n', '\r\n', '\r']) {
      expect(read(['  1.5', '\u22122.5  ', ' \t3 '], '.', lineEnd)).toEqual([1.5, -2.5, 3]);
    }
  });

  it('reads a last row without a line end, and blank lines behind it', () => {
    for (const end of ['', '\n', '\n\n', '\r\n \r\n', '  \n']) {
      expect(readCleanRows(`1;2\n3;4${end}`, { ...column('.'), width: 2, numeric: [0, 1] }, 2)).toEqual([
        Float64Array.of(1, 3),
        Float64Array.of(2, 4),
      ]);
    }
  });

  it('reads more rows than the first lines let expect', () => {
    const long = '0'.repeat(4000);
    const cells = [long, ...Array.from({ length: 5000 }, (_, row) => String(row % 10))];
    expect(read(cells)).toEqual(cells.map(Number));
  });

  it.each([
    ['text', ['1', 'x']],
    ['a blank line between rows', ['1', '', '2']],
    ['an empty first row', ['', '1']],
    ['a cell too many', ['1', '2;3']],
    ['a comment behind a number', ['1', '2 # mains on']],
    ['a point alone', ['1', '.']],
    ['an exponent without digits', ['1', '2e']],
    ['an exponent of a sign alone', ['1', '2e+']],
    ['a hexadecimal number', ['1', '0x10']],
    ['a number beyond the range', ['1', '1e999']],
    ['no number', ['1', 'NaN']],
    ['two signs', ['1', '--2']],
    ['quotes', ['1', '"2"']],
  ])('leaves a file with %s to the strict pass', (_, cells) => {
    expect(read(cells)).toBeNull();
  });

  it('leaves a decimal comma that no digit follows, and a point beside commas, to the strict pass', () => {
    expect(read(['1,5', '2,'], ',')).toBeNull();
    expect(read(['1,5', '2.5'], ',')).toBeNull();
  });
});
