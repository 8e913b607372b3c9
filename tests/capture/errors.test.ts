import { describe, expect, it } from 'vitest';
import {
  type CaptureDeclaration,
  maxBytes,
  maxColumns,
  maxRows,
  readCapture,
} from '../../src/capture/index.ts';
import { encode, problemLines, readText } from './helpers.ts';

interface Case {
  title: string;
  text: string;
  declaration?: CaptureDeclaration;
  problems: string[];
}

const wave = (...rows: string[]) => ['time,v', ...rows, ''].join('\n');

const rowFaults: Case[] = [
  {
    title: 'text in a number column',
    text: wave('0,1', '1,abc', '2,3'),
    problems: ['error 3:3 capture-not-a-number'],
  },
  {
    title: 'text in the first row',
    text: wave('0,abc', '1,2', '2,3'),
    problems: ['error 2:3 capture-not-a-number'],
  },
  {
    title: 'text in the last row',
    text: wave('0,1', '1,2', '2,over'),
    problems: ['error 4:3 capture-not-a-number'],
  },
  {
    title: 'a cell too many',
    text: wave('0,1', '1,2,7', '2,3'),
    problems: ['error 3:5 capture-field-count'],
  },
  {
    title: 'a remark behind a row',
    text: wave('0,1', '1,2,late', '2,3'),
    problems: ['error 3:5 capture-field-count'],
  },
  { title: 'a cell too few', text: wave('0,1', '1', '2,3'), problems: ['error 3:2 capture-field-count'] },
  {
    title: 'a row cut off at the end',
    text: 'time,v\n0,1\n1,2\n2',
    problems: ['error 4:2 capture-field-count'],
  },
  {
    title: 'an empty cell',
    text: 'time,v,w\n0,1,5\n1,,5\n2,3,5\n',
    problems: ['error 3:3 capture-missing-value'],
  },
  {
    title: 'a second header',
    text: wave('0,1', '1,2', 'time,v', '2,3'),
    problems: ['error 4:1 capture-text-row'],
  },
  {
    title: 'a remark among the rows',
    text: wave('0,1', '# range', '1,2'),
    problems: ['error 3:1 capture-text-row'],
  },
  {
    title: 'a blank line among the rows',
    text: wave('0,1', '', '1,2'),
    problems: ['error 3:1 capture-blank-line'],
  },
  { title: 'NaN', text: wave('0,1', '1,NaN', '2,3'), problems: ['error 3:3 capture-not-finite'] },
  { title: 'infinity', text: wave('0,1', '1,2', '2,-Inf'), problems: ['error 4:3 capture-not-finite'] },
  {
    title: 'a number beyond range',
    text: wave('0,1', '1,1e999', '2,3'),
    problems: ['error 3:3 capture-not-finite'],
  },
  {
    title: 'a hexadecimal number',
    text: wave('0,1', '1,0x10', '2,3'),
    problems: ['error 3:3 capture-not-a-number'],
  },
  {
    title: 'a number with its unit',
    text: wave('0,1', '1,2 V', '2,3'),
    problems: ['error 3:3 capture-not-a-number'],
  },
  {
    title: 'a decimal comma among points',
    text: 'time;v\n0.5;1.5\n1.5;2,5\n2.5;3.5\n',
    problems: ['error 3:5 capture-not-a-number'],
  },
  {
    title: 'a cell behind spaces, at its first character',
    text: 'time, v\n0,   1\n1,   x\n2,   3\n',
    problems: ['error 3:6 capture-not-a-number'],
  },
  {
    title: 'a fault in a quoted file',
    text: '"time","v"\n"0","1"\n"1","x"\n"2","3"\n',
    problems: ['error 3:5 capture-not-a-number'],
  },
  {
    title: 'a fault behind CR line ends',
    text: 'time,v\r0,1\r1,x\r2,3\r',
    problems: ['error 3:3 capture-not-a-number'],
  },
  {
    title: 'one fault in each of several rows',
    text: wave('0,1', '1,a', '2,3,4', '3', '4,5'),
    problems: [
      'error 3:3 capture-not-a-number',
      'error 4:5 capture-field-count',
      'error 5:2 capture-field-count',
    ],
  },
];

const timeFaults: Case[] = [
  {
    title: 'time that runs backward',
    text: wave('0,1', '1,2', '0.5,3', '3,4'),
    problems: ['error 4:1 capture-time-decreasing'],
  },
  {
    title: 'a missing sample',
    text: wave('0,1', '1,2', '2,3', '4,5', '5,6'),
    problems: ['error 5:1 capture-samples-missing'],
  },
  {
    title: 'a missing second sample',
    text: wave('0,1', '2,2', '3,3', '4,5', '5,6'),
    problems: ['error 3:1 capture-samples-missing'],
  },
  {
    title: 'uneven steps',
    text: wave('0,1', '1.00,2', '2.27,3', '3.00,5'),
    problems: ['error 4:1 capture-time-irregular'],
  },
  {
    title: 'time that stands still',
    text: wave('5,1', '5,2', '5,3'),
    problems: ['error 3:1 capture-time-still'],
  },
  {
    title: 'a missing sample in the second channel only',
    text: 't1,v1,t2,v2\n0,1,0,1\n1,2,1,2\n2,3,3,3\n3,4,4,4\n4,5,5,5\n',
    problems: ['error 4:5 capture-samples-missing'],
  },
  {
    title: 'channels at different rates',
    text: 't1,v1,t2,v2\n0,1,0,1\n1,2,2,2\n2,3,4,3\n',
    problems: ['error 1:7 capture-time-columns-differ'],
  },
  {
    title: 'a missing sample number',
    text: 'Interval,1 ms\nindex,v\n0,1\n1,2\n3,3\n',
    problems: ['error 5:1 capture-index-gap'],
  },
  {
    title: 'a preamble that contradicts the stamps',
    text: 'Sampling rate,2000\ntime,v\n0,1\n0.001,2\n0.002,3\n',
    problems: ['error 1:1 capture-rate-unclear'],
  },
  {
    title: 'two rates in the preamble',
    text: 'Sampling rate,2000\nSample interval,0.001\nleft (V),right (V)\n1,1.5\n2,2.5\n',
    problems: ['error 2:1 capture-rate-unclear'],
  },
  {
    title: 'sample numbers without any rate',
    text: 'index,v\n0,1.5\n1,2\n2,3\n',
    declaration: { kind: 'waveform' },
    problems: ['error 1:1 capture-rate-missing'],
  },
  { title: 'a single row', text: wave('0,1'), problems: ['error 2:1 capture-too-few-rows'] },
  { title: 'time and nothing else', text: 'time\n0\n1\n2\n', problems: ['error 1:1 capture-no-signal'] },
];

const questions: Case[] = [
  {
    title: 'one column of decimals or two of whole numbers',
    text: '1,234\n2,345\n',
    problems: ['error 1:1 capture-delimiter-unclear'],
  },
  {
    title: 'decimal comma or grouped thousands',
    text: 'time;v\n1,234;2,345\n2,345;1,222\n',
    problems: ['error 2:1 capture-decimal-unclear'],
  },
  {
    title: 'columns without a header',
    text: '0.1,0.2\n0.2,0.3\n0.3,0.1\n',
    problems: ['error 1:1 capture-columns-unnamed'],
  },
  {
    title: 'a level in dB re nothing',
    text: 'frequency (Hz),level (dB)\n20,1\n30,2\n',
    problems: ['error 1:16 capture-reference-missing'],
  },
  {
    title: 'dBFS without full scale',
    text: 'frequency (Hz),level (dBFS)\n20,1\n30,2\n',
    problems: ['error 1:16 capture-full-scale-missing'],
  },
  {
    title: 'watts as voltage without a load',
    text: 'frequency (Hz),output (W)\n20,1\n30,2\n',
    declaration: { columns: { output: { column: 2, quantity: 'voltage' } } },
    problems: ['error 1:16 capture-load-missing'],
  },
  {
    title: 'distortion without a unit',
    text: 'frequency (Hz),THD\n20,1\n30,2\n',
    problems: ['error 1:16 capture-unit-missing'],
  },
  {
    title: 'per cent of nobody knows what',
    text: 'frequency (Hz),left (V),right (%)\n20,1,1\n30,2,1\n',
    problems: ['error 1:25 capture-quantity-missing'],
  },
  {
    title: 'a unit that is none',
    text: 'time (s),voltage (furlong)\n0,1\n1,2\n',
    problems: ['error 1:10 capture-unit-missing'],
  },
  {
    title: 'a header and a unit row that disagree',
    text: 'time (s),v (mV)\ns,V\n0,1\n1,2\n',
    problems: ['error 1:10 capture-unit-unclear'],
  },
  {
    title: 'a voltage in amperes',
    text: 'time (s),voltage (A)\n0,1\n1,2\n',
    problems: ['error 1:10 capture-unit-mismatch'],
  },
  {
    title: 'neither time nor rate nor sweep',
    text: 'v_in,v_out\n0.1,1\n0.2,2\n',
    problems: ['error 1:1 capture-kind-unclear'],
  },
  {
    title: 'time and frequency',
    text: 'time (s),frequency (Hz),v (V)\n0,1,1\n1,2,1\n',
    problems: ['error 1:1 capture-kind-unclear'],
  },
  {
    title: 'impedance and distortion in one sweep',
    text: 'frequency (Hz),impedance (Ω),THD (%)\n10,1,1\n20,2,1\n',
    problems: ['error 1:1 capture-kind-unclear'],
  },
  {
    title: 'two levels of which either may be the stimulus',
    text: 'left (dBV),right (dBV),THD (%)\n-20,1,1\n-10,2,1\n',
    problems: ['error 1:12 capture-axis-unclear'],
  },
];

const sweepFaults: Case[] = [
  {
    title: 'a frequency of zero',
    text: 'Hz,gain (dB)\n0,1\n10,2\n',
    problems: ['error 2:1 capture-value-range'],
  },
  {
    title: 'a negative power',
    text: 'power (W),THD (%)\n1,1\n-2,2\n',
    problems: ['error 3:1 capture-value-range'],
  },
  {
    title: 'a frequency twice',
    text: 'Hz,gain (dB)\n10,1\n20,2\n20,2\n30,1\n',
    problems: ['error 4:1 capture-order'],
  },
  {
    title: 'a sweep that turns',
    text: 'Hz,gain (dB)\n10,1\n20,2\n15,2\n',
    problems: ['error 4:1 capture-order'],
  },
];

const declarationFaults: Case[] = [
  {
    title: 'a column that is not there',
    text: wave('0,1', '1,2'),
    declaration: { columns: { out: { column: 'w' } } },
    problems: ['error 1:1 capture-column-unknown'],
  },
  {
    title: 'a position that is not there',
    text: wave('0,1', '1,2'),
    declaration: { columns: { out: { column: 3 } } },
    problems: ['error 1:1 capture-column-unknown'],
  },
  {
    title: 'a header that two columns have',
    text: 'time,v,v\n0,1,2\n1,2,3\n',
    declaration: { columns: { out: { column: 'v' } } },
    problems: ['error 1:1 capture-column-unclear'],
  },
  {
    title: 'one column under two names',
    text: wave('0,1', '1,2'),
    declaration: { columns: { out: { column: 'v' }, load: { column: 2 } } },
    problems: ['error 1:1 capture-column-twice'],
  },
  {
    title: 'a declared unit that is none',
    text: wave('0,1', '1,2'),
    declaration: { columns: { out: { column: 'v', unit: 'mw/s' } } },
    problems: ['error 1:6 capture-unit-unknown'],
  },
  {
    title: 'a kind that the columns cannot be',
    text: wave('0,1', '1,2'),
    declaration: { kind: 'impedance-sweep' },
    problems: ['error 1:1 capture-kind-lacks'],
  },
  {
    title: 'a harmonic of no order',
    text: 'Hz,second (%)\n10,1\n20,2\n',
    declaration: { columns: { second: { column: 2, quantity: 'harmonic' } } },
    problems: ['error 1:4 capture-order-missing'],
  },
];

describe.each([
  ['rows', rowFaults],
  ['time', timeFaults],
  ['questions', questions],
  ['sweeps', sweepFaults],
  ['declarations', declarationFaults],
])('faults in %s are errors at their line and column', (_, cases) => {
  it.each(cases)('$title', ({ text, declaration, problems }) => {
    const reading = readText(text, declaration);
    expect(problemLines(reading)).toEqual(problems);
    expect(reading.capture).toBeNull();
    for (const problem of reading.problems) {
      expect(problem.file).toBe('capture.csv');
      expect(problem.message).toMatch(/^[A-Z\d].*\.$/su);
      expect(problem.hint).toMatch(/\S/);
    }
  });
});

describe('whole files that cannot be read', () => {
  const ruleOf = (bytes: Uint8Array, declaration?: CaptureDeclaration) =>
    problemLines(readCapture(bytes, 'capture.csv', declaration));

  it('an empty file, and one of blank lines', () => {
    expect(ruleOf(new Uint8Array())).toEqual(['error 1:1 capture-empty']);
    expect(ruleOf(encode(' \n\r\n\t\n', 'utf-8'))).toEqual(['error 1:1 capture-empty']);
  });

  it('binary content', () => {
    const picture = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13);
    expect(ruleOf(picture)).toEqual(['error 1:1 capture-binary']);
  });

  it('a text without any row of numbers', () => {
    expect(ruleOf(encode('Dear diary,\nnothing today\n', 'utf-8'))).toEqual(['error 1:1 capture-no-numbers']);
  });

  it('bytes that are not in the declared encoding', () => {
    const bytes = encode('time [µs],v\n0,1\n1,2\n', 'windows-1252');
    expect(ruleOf(bytes, { encoding: 'utf-8' })).toEqual(['error 1:1 capture-encoding']);
  });

  it('a file over the size limit, which the message names', () => {
    const { problems } = readCapture(new Uint8Array(maxBytes + 1), 'capture.csv');
    expect(problems.map(({ rule }) => rule)).toEqual(['capture-too-large']);
    expect(problems[0]?.message).toContain('64 MiB');
  });

  it('more rows than the limit, at the first row above it', () => {
    const { problems } = readText(`v\n${'1\n'.repeat(maxRows + 1)}`, { rateHz: 1000 });
    expect(problems.map(({ rule, line }) => ({ rule, line }))).toEqual([
      { rule: 'capture-too-many-rows', line: maxRows + 2 },
    ]);
    expect(problems[0]?.message).toContain('4000000');
  });

  it('more columns than the limit', () => {
    const row = Array.from({ length: maxColumns + 1 }, (_, at) => at).join(',');
    const { problems } = readText(`${row}\n${row}\n`);
    expect(problems.map(({ rule }) => rule)).toEqual(['capture-too-many-columns']);
    expect(problems[0]?.message).toContain(`limit is ${maxColumns}`);
  });

  it('a line over the length limit', () => {
    const row = Array.from({ length: 40_000 }, () => '1').join(',');
    expect(ruleOf(encode(`time,v\n0,1\n1,2\n2,3\n${row}\n`, 'utf-8'))).toEqual([
      'error 5:1 capture-line-too-long',
    ]);
  });
});

describe('many faulty rows', () => {
  it('reports the first five and counts the rest', () => {
    const rows = Array.from({ length: 40 }, (_, row) => (row % 2 === 0 ? `${row},1` : `${row},x`));
    const reading = readText(wave(...rows));
    expect(problemLines(reading)).toEqual([
      'error 3:3 capture-not-a-number',
      'error 5:3 capture-not-a-number',
      'error 7:3 capture-not-a-number',
      'error 9:3 capture-not-a-number',
      'error 11:3 capture-not-a-number',
      'error 13:4 capture-more-faults',
    ]);
    expect(reading.problems.at(-1)?.message).toContain('15 more rows have faults');
  });
});

describe('columns without numbers are left out with a warning', () => {
  it('a header over an empty column', () => {
    const reading = readText('time,v,w\n0,1,\n1,2,\n');
    expect(problemLines(reading)).toEqual(['warning 1:8 capture-empty-column']);
    expect(reading.capture?.columns.map(({ name }) => name)).toEqual(['v']);
  });

  it('numbers above the header', () => {
    const reading = readText('9.5,9\nleft (V),right (V)\n1.5,2\n3,4\n2,2\n', { rateHz: 10 });
    expect(problemLines(reading)).toEqual(['warning 1:1 capture-numbers-above-header']);
    expect(reading.capture?.table.rows).toBe(3);
  });
});

describe('what is no fault', () => {
  it.each([
    ['a blank trailing line', 'time,v\n0,1\n1,2\n\n\n'],
    ['no line end at the end', 'time,v\n0,1\n1,2'],
    ['a trailing delimiter', 'time,v,\n0,1,\n1,2,\n'],
    ['a trailing delimiter in the rows only', 'time,v\n0,1,\n1,2,\n'],
    ['a trailing delimiter in some rows only', 'time,v\n0,1,\n1,2\n2,3,\n'],
    ['mixed line ends', 'time,v\r\n0,1\n1,2\r\n2,3\n'],
    ['a remark behind the last row', 'time,v\n0,1\n1,2\n# end\n'],
    ['a typographic minus', 'time,v\n0,\u22121\n1,2\n'],
  ])('%s', (_, text) => {
    const reading = readText(text);
    expect(reading.problems).toEqual([]);
    expect(reading.capture?.sampling?.rateHz).toBe(1);
  });
});
