import type { CaptureDeclaration } from '../../src/capture/index.ts';
import { type Encoding, encode } from './helpers.ts';

/** One known signal: 200 samples of two channels at 50 kHz, in volts. */
export const signal = {
  rows: 200,
  rateHz: 50_000,
  time: (row: number) => row / 50_000,
  near: (row: number) => 0.25 * Math.sin((2 * Math.PI * 1000 * row) / 50_000),
  far: (row: number) => 1.75 * Math.cos((2 * Math.PI * 1000 * row) / 50_000) - 0.125,
};

export interface Layout {
  title: string;
  bytes: Uint8Array;
  declaration?: CaptureDeclaration;
  names: [string, string];
  /** Half a unit of the last printed digit of each channel, in volts. */
  halfDigits: [number, number];
  expected: {
    encoding: string;
    delimiter: string;
    decimalMark: string;
    firstDataLine: number;
    rateFrom: string;
    roles?: [string, string];
  };
}

const rowsOf = (print: (row: number) => readonly string[], delimiter: string) =>
  Array.from({ length: signal.rows }, (_, row) => print(row).join(delimiter));

const near =
  (digits: number, unit = 1) =>
  (row: number) =>
    (signal.near(row) / unit).toFixed(digits);
const far =
  (digits: number, unit = 1) =>
  (row: number) =>
    (signal.far(row) / unit).toFixed(digits);
const micros = (row: number) => String(row * 20);
const decimalComma = (text: string) => text.replace('.', ',');

const text = (lines: readonly string[], encoding: Encoding = 'utf-8', lineEnd = '\n') =>
  encode(lines.join(lineEnd) + lineEnd, encoding);

/** Twelve ways of writing the same signal. No instrument prints any of them. */
export const layouts: readonly Layout[] = [
  {
    title: 'names with units in round brackets, comma, LF',
    bytes: text([
      'elapsed time (s),near end (V),far end (V)',
      ...rowsOf((row) => [signal.time(row).toFixed(5), near(6)(row), far(6)(row)], ','),
    ]),
    names: ['near-end', 'far-end'],
    halfDigits: [5e-7, 5e-7],
    expected: {
      encoding: 'utf-8',
      delimiter: ',',
      decimalMark: '.',
      firstDataLine: 2,
      rateFrom: 'time column',
    },
  },
  {
    title: 'decimal comma, semicolon, CRLF, Windows-1252 micro sign, square brackets',
    bytes: text(
      [
        'Time [µs];Near [mV];Far [mV]',
        ...rowsOf(
          (row) => [micros(row), decimalComma(near(2, 1e-3)(row)), decimalComma(far(2, 1e-3)(row))],
          ';',
        ),
      ],
      'windows-1252',
      '\r\n',
    ),
    names: ['Near', 'Far'],
    halfDigits: [5e-6, 5e-6],
    expected: {
      encoding: 'windows-1252',
      delimiter: ';',
      decimalMark: ',',
      firstDataLine: 2,
      rateFrom: 'time column',
    },
  },
  {
    title: 'tab, UTF-16 little-endian, a row of names and a row of units',
    bytes: text(
      [
        'time\tgrid\tplate',
        'ms\tmV\tV',
        ...rowsOf((row) => [(row * 0.02).toFixed(2), near(3, 1e-3)(row), far(5)(row)], '\t'),
      ],
      'utf-16le',
    ),
    names: ['grid', 'plate'],
    halfDigits: [5e-7, 5e-6],
    expected: {
      encoding: 'utf-16le',
      delimiter: '\t',
      decimalMark: '.',
      firstDataLine: 3,
      rateFrom: 'time column',
    },
  },
  {
    title: 'no time column, sampling rate in the preamble, UTF-16 big-endian, CR',
    bytes: text(
      [
        'Bench notebook page 7',
        'Sampling rate: 50 kHz',
        'Remark = after warming up',
        '',
        'input (V),output (V)',
        ...rowsOf((row) => [near(5)(row), far(5)(row)], ','),
      ],
      'utf-16be',
      '\r',
    ),
    names: ['input', 'output'],
    halfDigits: [5e-6, 5e-6],
    expected: {
      encoding: 'utf-16be',
      delimiter: ',',
      decimalMark: '.',
      firstDataLine: 6,
      rateFrom: 'preamble line 2',
      roles: ['stimulus', 'response'],
    },
  },
  {
    title: 'runs of spaces and a header behind a comment sign',
    bytes: text([
      '# taken on the kitchen table',
      '#   Time (ms)   probe A (V)   probe B (V)',
      ...rowsOf(
        (row) => [(row * 0.02).toFixed(2).padStart(12), near(5)(row).padStart(14), far(5)(row).padStart(14)],
        '',
      ),
    ]),
    names: ['probe-A', 'probe-B'],
    halfDigits: [5e-6, 5e-6],
    expected: {
      encoding: 'utf-8',
      delimiter: ' ',
      decimalMark: '.',
      firstDataLine: 3,
      rateFrom: 'time column',
    },
  },
  {
    title: 'sample numbers, with start and increment in the header rows',
    bytes: text([
      'No.,upper,lower,Start,Increment',
      'count,mV,V,-0.0015,2.0E-05',
      ...rowsOf((row) => [String(row), near(1, 1e-3)(row), far(4)(row), ''], ','),
    ]),
    names: ['upper', 'lower'],
    halfDigits: [5e-5, 5e-5],
    expected: {
      encoding: 'utf-8',
      delimiter: ',',
      decimalMark: '.',
      firstDataLine: 3,
      rateFrom: 'preamble line 2',
    },
  },
  {
    title: 'keys and values in columns beside the rows',
    bytes: text([
      'about,is,t (s),first (V),second (V)',
      ...rowsOf(
        (row) => [
          ['bench', 'attic', 'coupling'][row] ?? '',
          ['north', '3', 'direct'][row] ?? '',
          signal.time(row).toExponential(2),
          near(4)(row),
          far(4)(row),
        ],
        ',',
      ),
    ]),
    names: ['first', 'second'],
    halfDigits: [5e-5, 5e-5],
    expected: {
      encoding: 'utf-8',
      delimiter: ',',
      decimalMark: '.',
      firstDataLine: 2,
      rateFrom: 'time column',
    },
  },
  {
    title: 'a time column for each channel',
    bytes: text([
      't_in;v_in;t_out;v_out',
      ...rowsOf(
        (row) => [signal.time(row).toFixed(5), near(3)(row), signal.time(row).toFixed(5), far(3)(row)],
        ';',
      ),
    ]),
    names: ['v_in', 'v_out'],
    halfDigits: [5e-4, 5e-4],
    expected: {
      encoding: 'utf-8',
      delimiter: ';',
      decimalMark: '.',
      firstDataLine: 2,
      rateFrom: 'time column',
      roles: ['stimulus', 'response'],
    },
  },
  {
    title: 'time stamps rounded to three digits and the sample interval in the preamble',
    bytes: text([
      'Sample interval,2.0000E-05,s',
      'Weather,rain',
      'Seconds/s,Red/V,Blue/V',
      ...rowsOf((row) => [(signal.time(row) + 0.0312345).toExponential(2), near(5)(row), far(5)(row)], ','),
    ]),
    names: ['Red', 'Blue'],
    halfDigits: [5e-6, 5e-6],
    expected: {
      encoding: 'utf-8',
      delimiter: ',',
      decimalMark: '.',
      firstDataLine: 4,
      rateFrom: 'preamble line 1',
    },
  },
  {
    title: 'no header at all, columns declared by position, a probe of 10:1',
    bytes: text(rowsOf((row) => [micros(row), near(5, 10)(row), far(5)(row)], '\t')),
    declaration: {
      columns: {
        when: { column: 1, quantity: 'time', unit: 'us' },
        drive: { column: 2, unit: 'V', scale: 10, role: 'stimulus' },
        load: { column: 3, unit: 'V', role: 'response' },
      },
    },
    names: ['drive', 'load'],
    halfDigits: [5e-5, 5e-6],
    expected: {
      encoding: 'utf-8',
      delimiter: '\t',
      decimalMark: '.',
      firstDataLine: 1,
      rateFrom: 'time column',
      roles: ['stimulus', 'response'],
    },
  },
  {
    title: 'quoted cells with spaces inside, byte-order mark, unit row in brackets, blank lines around',
    bytes: text(
      [
        '"a title, with a comma"',
        '',
        '"Time","left ""A""","right"',
        '"[s]","[V]","[mV]"',
        '',
        ...rowsOf(
          (row) => [`" ${signal.time(row).toFixed(5)} "`, `"${near(4)(row)}"`, `"${far(1, 1e-3)(row)}"`],
          ',',
        ),
        '',
        '',
      ],
      'utf-8 with mark',
    ),
    names: ['left-A', 'right'],
    halfDigits: [5e-5, 5e-5],
    expected: {
      encoding: 'utf-8',
      delimiter: ',',
      decimalMark: '.',
      firstDataLine: 6,
      rateFrom: 'time column',
    },
  },
  {
    title: 'no time column, rate declared, trailing delimiter, spaces around numbers, a comment at the end',
    bytes: text([
      'Voltage at the jack in mV ; Voltage at the load in V ;',
      ...rowsOf(
        (row) => [` ${decimalComma(near(3, 1e-3)(row))} `, ` ${decimalComma(far(5)(row))} `, ''],
        ';',
      ),
      '# end of record',
    ]),
    declaration: { rateHz: 50_000 },
    names: ['Voltage-at-the-jack', 'Voltage-at-the-load'],
    halfDigits: [5e-7, 5e-6],
    expected: {
      encoding: 'utf-8',
      delimiter: ';',
      decimalMark: ',',
      firstDataLine: 2,
      rateFrom: 'declaration',
    },
  },
];
