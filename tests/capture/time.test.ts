import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CaptureDeclaration } from '../../src/capture/index.ts';
import { problemLines, readText } from './helpers.ts';

interface Stamps {
  rows: number;
  step: number;
  start?: number;
  print: (time: number) => string;
  preamble?: string;
}

function waveText(
  { rows, step, start = 0, print, preamble = '' }: Stamps,
  without: readonly number[] = [],
): string {
  const lines = Array.from({ length: rows }, (_, row) => `${print(start + row * step)},${row % 7}`);
  return `${preamble}time,v\n${lines.filter((_, row) => !without.includes(row)).join('\n')}\n`;
}

const sampling = (stamps: Stamps, declaration?: CaptureDeclaration) => {
  const reading = readText(waveText(stamps), declaration);
  expect(reading.problems).toEqual([]);
  return reading.capture?.sampling;
};

const truncated = (digits: number) => (time: number) =>
  (Math.floor(time * 10 ** digits) / 10 ** digits).toFixed(digits);

describe('rounded time stamps are recognised as a uniform rate', () => {
  it('five digits of a long record, where many neighbours are equal', () => {
    const print = (time: number) => time.toExponential(4);
    const found = sampling({ rows: 65_536, step: 1 / 4.7e6, start: -0.002, print });
    // The start is exact and the end is rounded to half of 1e-6 s, in 13.9 ms of record.
    expect(Math.abs((found?.rateHz ?? 0) / 4.7e6 - 1)).toBeLessThan(0.5e-6 / 0.0139);
    expect(found).toMatchObject({ rounded: true, from: 'time column' });
  });

  it('takes the finer rate of the preamble', () => {
    const stamps: Stamps = { rows: 2000, step: 1 / 44_100, print: (time) => time.toPrecision(5) };
    const found = sampling({ ...stamps, preamble: 'Sampling rate,44.1 kHz\n' });
    expect(found).toMatchObject({ rateHz: 44_100, from: 'preamble line 1', rounded: true });
    // Half of 1e-6 s, the last digit at the end of the record, and as much for the first stamp: 0.044 steps.
    expect(found?.largestStepError).toBeLessThan(1e-6 * 44_100);
  });

  it('keeps the stamps when the preamble is rounded more than they are', () => {
    const stamps: Stamps = { rows: 2000, step: 1 / 44_100, print: (time) => time.toFixed(9) };
    const found = sampling({ ...stamps, preamble: 'Sample interval,2.27E-05\n' });
    expect(found?.from).toBe('time column');
    // One digit of 1e-9 s in a record of 45 ms.
    expect(Math.abs((found?.rateHz ?? 0) / 44_100 - 1)).toBeLessThan(1e-9 / 0.045);
  });

  it('stamps cut off instead of rounded', () => {
    expect(sampling({ rows: 3000, step: 1 / 48_000, print: truncated(6) })?.rounded).toBe(true);
  });

  it('stamps without their trailing zeros', () => {
    const print = (time: number) => String(Number(time.toPrecision(5)));
    expect(sampling({ rows: 3000, step: 1 / 48_000, print })?.rounded).toBe(true);
  });

  it('equal neighbours that rounding explains', () => {
    const found = sampling({ rows: 500, step: 0.0004, print: (time) => time.toFixed(3) });
    expect(found).toMatchObject({ rounded: true });
    // One digit of 1 ms in 0.2 s of record.
    expect(Math.abs((found?.rateHz ?? 0) / 2500 - 1)).toBeLessThan(0.001 / 0.1996);
  });

  it('exact stamps are not called rounded, and their rate has no noise', () => {
    expect(sampling({ rows: 1000, step: 2e-6, print: (time) => time.toFixed(6) })).toMatchObject({
      rateHz: 500_000,
      rounded: false,
    });
  });

  it('a declared rate wins, with a warning where the stamps say otherwise', () => {
    const text = waveText({ rows: 100, step: 0.001, print: (time) => time.toFixed(3) });
    expect(readText(text, { rateHz: 1000 }).problems).toEqual([]);
    const reading = readText(text, { rateHz: 2000 });
    expect(problemLines(reading)).toEqual(['warning 1:1 capture-rate-differs']);
    expect(reading.capture?.sampling).toMatchObject({ rateHz: 2000, from: 'declaration' });
  });

  it('any rate, start and number of digits', () => {
    fc.assert(
      fc.property(stampArbitrary, ({ rows, rateHz, start, digits }) => {
        const print = (time: number) => time.toExponential(digits - 1);
        const reading = readText(waveText({ rows, step: 1 / rateHz, start, print }));
        const span = (rows - 1) / rateHz;
        const digit = 10 ** (Math.floor(Math.log10(Math.abs(start) + span)) - digits + 1);
        expect(problemLines(reading)).toEqual([]);
        // Both ends may be off by half a digit.
        const error = Math.abs((reading.capture?.sampling?.rateHz ?? 0) / rateHz - 1);
        expect(error).toBeLessThanOrEqual((digit * 1.001) / (span - digit) + 1e-9);
      }),
    );
  });
});

/** Steps of at least three printed digits, so that a missing sample cannot hide in the rounding. */
const stampArbitrary = fc
  .record({
    rows: fc.integer({ min: 12, max: 300 }),
    rateHz: fc.double({ min: 10, max: 1e6, noNaN: true }),
    start: fc.constantFrom(0, 0.5, -0.25, 3e-3),
    digits: fc.integer({ min: 5, max: 9 }),
  })
  .filter(({ rows, rateHz, start, digits }) => {
    const end = Math.abs(start) + rows / rateHz;
    return 1 / rateHz >= 3 * 10 ** (Math.floor(Math.log10(end)) - digits + 1);
  });

describe('missing samples are found where they begin', () => {
  it('at any row of stamps rounded to any number of digits', () => {
    fc.assert(
      fc.property(
        stampArbitrary,
        fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }),
        (stamps, where) => {
          const { rows, rateHz, start, digits } = stamps;
          const missing = 1 + Math.floor(where * (rows - 2));
          const print = (time: number) => time.toExponential(digits - 1);
          const reading = readText(waveText({ rows, step: 1 / rateHz, start, print }, [missing]));
          // The row that follows the missing one stands in its place, below the header.
          expect(problemLines(reading)).toEqual([`error ${missing + 2}:1 capture-samples-missing`]);
        },
      ),
    );
  });

  it('at the second row, where steps of three digits leave room for a grid through the gap', () => {
    const print = (time: number) => time.toExponential(5);
    const reading = readText(waveText({ rows: 47, step: 1 / 314_100.457, start: -0.25, print }, [1]));
    expect(problemLines(reading)).toEqual(['error 3:1 capture-samples-missing']);
  });

  it('names how many are missing', () => {
    const stamps: Stamps = { rows: 60, step: 0.001, print: (time) => time.toFixed(4) };
    const { problems } = readText(waveText(stamps, [30, 31, 32]));
    expect(problems.map(({ line, message }) => ({ line, message }))).toEqual([
      {
        line: 32,
        message: 'The time stamp 0.033 comes 4 steps after the one before it: 3 samples are missing.',
      },
    ]);
  });

  it('also where stamps have just the digits they need, and not where the preamble explains the steps', () => {
    const print = (time: number) => time.toFixed(3);
    expect(problemLines(readText(waveText({ rows: 40, step: 0.001, print }, [20])))).toEqual([
      'error 22:1 capture-samples-missing',
    ]);
    const slower = { rows: 40, step: 0.001025, print, preamble: 'Sample interval,1.025 ms\n' };
    expect(sampling(slower)).toMatchObject({ from: 'preamble line 1', rounded: true });
  });
});

describe('records without a time column', () => {
  it.each([
    ['Sampling rate: 48 kHz', 48_000],
    ['Sample Rate,48000', 48_000],
    ['Sampling frequency (kHz),48', 48_000],
    ['sample rate = 48 kSa/s', 48_000],
    ['Samples per second: 48000', 48_000],
    ['fs;48000', 48_000],
    ['Sample interval,20.0E-06,s', 50_000],
    ['Sampling period: 20 us', 50_000],
    ['Time increment (µs),20', 50_000],
    ['dt = 2E-5', 50_000],
  ])('%s', (line, rateHz) => {
    const { capture, problems } = readText(`${line}\nleft (V),right (V)\n0.5,1.5\n1.5,2.5\n0.5,1.5\n`);
    expect(problems).toEqual([]);
    expect(capture?.sampling?.from).toBe('preamble line 1');
    // One division of numbers with few digits.
    expect(capture?.sampling?.rateHz).toBeCloseTo(rateHz, 6);
  });

  it('counts sample numbers that are not every sample', () => {
    const { capture } = readText('Sampling rate,1000\nindex,level (V)\n0,1\n4,2\n8,1\n');
    expect(capture?.sampling?.rateHz).toBe(250);
  });

  it('warns when one channel was sampled later than the other', () => {
    const reading = readText('t1,v1,t2,v2\n0,1,0.25,1\n1,2,1.25,2\n2,3,2.25,3\n');
    expect(problemLines(reading)).toEqual(['warning 1:7 capture-channel-skew']);
    expect(reading.problems[0]?.message).toContain('0.25 samples later');
  });
});
