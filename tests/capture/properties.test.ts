import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCleanRows } from '../../src/capture/clean-rows.ts';
import { readCapture } from '../../src/capture/index.ts';
import { isDataLine, type Layout } from '../../src/capture/layout.ts';
import { linesFrom } from '../../src/capture/lines.ts';
import { reportOn } from '../../src/capture/report.ts';
import { readStrictRows } from '../../src/capture/strict-rows.ts';
import { type Encoding, encode, problemLines } from './helpers.ts';

interface Written {
  values: number[][];
  delimiter: ',' | ';' | '\t' | ' ';
  mark: '.' | ',';
  lineEnd: '\n' | '\r\n' | '\r';
  encoding: Encoding;
  unit: { text: string; factor: number };
  decimals: number;
  quoted: boolean;
  trailing: boolean;
  unitRow: boolean;
  preamble: string[];
}

const written: fc.Arbitrary<Written> = fc
  .record<Written>({
    values: fc.integer({ min: 1, max: 4 }).chain((channels) =>
      fc.array(
        fc.array(fc.integer({ min: -99_999, max: 99_999 }), { minLength: channels, maxLength: channels }),
        {
          minLength: 3,
          maxLength: 60,
        },
      ),
    ),
    delimiter: fc.constantFrom(',', ';', '\t', ' '),
    mark: fc.constantFrom('.', ','),
    lineEnd: fc.constantFrom('\n', '\r\n', '\r'),
    encoding: fc.constantFrom<Encoding>('utf-8', 'utf-8 with mark', 'utf-16le', 'utf-16be', 'windows-1252'),
    unit: fc.constantFrom(
      { text: 'V', factor: 1 },
      { text: 'mV', factor: 1e-3 },
      { text: 'µV', factor: 1e-6 },
    ),
    decimals: fc.constantFrom(0, 1, 2, 4, 5),
    quoted: fc.boolean(),
    trailing: fc.boolean(),
    unitRow: fc.boolean(),
    preamble: fc.array(fc.constantFrom('', 'Place: attic', '# warm', 'Coupling = direct'), { maxLength: 3 }),
  })
  .filter(({ delimiter, mark, quoted }) => delimiter !== mark || quoted);

function textOf(table: Written): string {
  const { delimiter, lineEnd, quoted, trailing, unit, unitRow } = table;
  const channels = table.values[0]?.length ?? 0;
  const cell = (text: string) => (quoted ? `"${text}"` : text);
  const row = (cells: readonly string[]) => cells.map(cell).join(delimiter) + (trailing ? delimiter : '');
  const names = Array.from({ length: channels }, (_, at) => (unitRow ? `ch${at}` : `ch${at}(${unit.text})`));
  const header = [unitRow ? 'time' : 'time(ms)', ...names];
  const units = unitRow ? [row(['ms', ...names.map(() => unit.text)])] : [];
  const rows = table.values.map((values, at) =>
    row([`${at}${table.mark}5`, ...values.map((value) => printed(value, table))]),
  );
  return [...table.preamble, row(header), ...units, ...rows].join(lineEnd) + lineEnd;
}

const printed = (value: number, { decimals, mark }: Written) =>
  (value / 10 ** decimals).toFixed(decimals).replace('.', mark);

describe('any table in any layout', () => {
  it('reads back to its numbers', () => {
    fc.assert(
      fc.property(written, (table) => {
        const reading = readCapture(encode(textOf(table), table.encoding), 'capture.csv');
        expect(problemLines(reading)).toEqual([]);
        expect(reading.capture?.sampling?.rateHz).toBe(1000);
        const columns = reading.capture?.columns ?? [];
        expect(columns.map(({ name }) => name)).toEqual((table.values[0] ?? []).map((_, at) => `ch${at}`));
        columns.forEach((column, at) => {
          table.values.forEach((row, line) => {
            const expected = Number(printed(row[at] ?? 0, { ...table, mark: '.' })) * table.unit.factor;
            // One multiplication or division in double precision.
            expect(Math.abs((column.values[line] ?? Number.NaN) - expected)).toBeLessThanOrEqual(
              2 * Number.EPSILON * Math.abs(expected),
            );
          });
        });
      }),
      { numRuns: 300 },
    );
  });

  it('reads the same under the declaration that it offers', () => {
    fc.assert(
      fc.property(written, (table) => {
        const bytes = encode(textOf(table), table.encoding);
        const first = readCapture(bytes, 'capture.csv');
        const again = readCapture(bytes, 'capture.csv', first.declaration ?? {});
        expect(problemLines(again)).toEqual([]);
        expect(again.capture?.columns.map(({ values }) => values)).toEqual(
          first.capture?.columns.map(({ values }) => values),
        );
      }),
    );
  });
});

const csvLike = fc.string({
  unit: fc.constantFrom(
    '0',
    '1',
    '7',
    '.',
    ',',
    '-',
    '+',
    'e',
    'x',
    ' ',
    '\n',
    '\r',
    '\t',
    ';',
    '"',
    '#',
    'NaN',
  ),
  maxLength: 120,
});

describe('any bytes', () => {
  const isSound = (bytes: Uint8Array) => {
    const { capture, problems, declaration } = readCapture(bytes, 'capture.csv');
    expect(capture === null).toBe(problems.some(({ severity }) => severity === 'error'));
    expect(capture === null).toBe(declaration === null);
    for (const { line, column } of problems) {
      expect(line).toBeGreaterThanOrEqual(1);
      expect(column).toBeGreaterThanOrEqual(1);
    }
    const values = capture?.columns.flatMap((column) => [...column.values]) ?? [];
    expect(values.every(Number.isFinite)).toBe(true);
  };

  it('give a capture of finite numbers or an error, and never an exception', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 2000 }), isSound), { numRuns: 500 });
  });

  it('that look like a capture do as well', () => {
    fc.assert(
      fc.property(csvLike, (text) => isSound(encode(text, 'utf-8'))),
      { numRuns: 2000 },
    );
  });

  it('of a sound file with a few letters changed do as well', () => {
    const edits = fc.array(fc.tuple(fc.nat(), fc.integer({ min: 0, max: 255 })), {
      minLength: 1,
      maxLength: 6,
    });
    fc.assert(
      fc.property(written, edits, (table, changes) => {
        const bytes = encode(textOf(table), table.encoding);
        for (const [at, byte] of changes) bytes[at % bytes.length] = byte;
        isSound(bytes);
      }),
      { numRuns: 500 },
    );
  });

  it.each([
    ['one line of quotes', '"'.repeat(200_000)],
    ['quotes and delimiters', '","'.repeat(100_000)],
    ['one line of numbers', '1,'.repeat(200_000)],
    ['delimiters only', ',\n'.repeat(100_000)],
    ['blank lines only, but for a number', `${'\n'.repeat(200_000)}1`],
    ['numbers and text in turn', '1,2\na,b\n'.repeat(30_000)],
    ['spaces', ' '.repeat(500_000).concat('1')],
    ['signs of comments', '#'.repeat(300_000)],
    ['carriage returns', '1\r'.repeat(200_000)],
    ['a header of brackets', `${'('.repeat(30_000)},v\n0,1\n1,2\n`],
    ['a header of spaces', `time${' '.repeat(60_000)}x,v\n0,1\n1,2\n`],
  ])(
    'of a hostile kind end quickly: %s',
    (_, text) => {
      isSound(encode(text, 'utf-8'));
    },
    10_000,
  );
});

describe('the quick pass', () => {
  const layout = fc.record({
    delimiter: fc.constantFrom<Layout['delimiter']>(',', ';', '\t', ' '),
    decimalMark: fc.constantFrom<Layout['decimalMark']>('.', ','),
    width: fc.integer({ min: 1, max: 3 }),
  });

  it('accepts nothing that the strict pass refuses or reads otherwise', () => {
    fc.assert(
      fc.property(
        layout,
        csvLike,
        fc.nat({ max: 1 }),
        ({ delimiter, decimalMark, width }, tail, trailing) => {
          fc.pre(delimiter !== decimalMark);
          const whole: Layout = {
            delimiter,
            decimalMark,
            width,
            numeric: Array.from({ length: width }, (_, at) => at),
          };
          const firstRow = ['1', '0', '7'].slice(0, width).join(delimiter);
          const text = `${firstRow}\n${tail}`;
          const [first] = linesFrom(text);
          fc.pre(first !== undefined && isDataLine(first.text, whole));
          const clean = readCleanRows(text, whole, width + trailing);
          if (clean === null || first === undefined) return;
          expect(
            readStrictRows(text, first, { layout: whole, most: width }, reportOn('capture.csv'))?.columns,
          ).toEqual(clean);
        },
      ),
      { numRuns: 5000 },
    );
  });

  it('reads clean rows of every delimiter itself', () => {
    for (const delimiter of [',', ';', '\t', ' '] as const) {
      const rows: Layout = { delimiter, decimalMark: '.', width: 2, numeric: [0, 1] };
      const text = ['1.5', '-2e3'].join(delimiter).concat('\n').repeat(3);
      expect(readCleanRows(text, rows, 2)?.map((column) => [...column])).toEqual([
        [1.5, 1.5, 1.5],
        [-2000, -2000, -2000],
      ]);
    }
  });
});
