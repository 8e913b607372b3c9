import { describe, expect, it } from 'vitest';
import { readCapture } from '../../src/capture/index.ts';
import { encode, valuesOf } from './helpers.ts';
import { layouts, signal } from './layouts.ts';

const rows = Array.from({ length: signal.rows }, (_, row) => row);

describe.each(layouts)('$title', ({ bytes, declaration, names, halfDigits, expected }) => {
  const reading = readCapture(bytes, 'capture.csv', declaration);

  it('reads without a problem', () => {
    expect(reading.problems).toEqual([]);
    expect(reading.capture?.kind).toBe('waveform');
  });

  it.each([0, 1] as const)('gives channel %i back within half a printed digit', (channel) => {
    const wanted = channel === 0 ? signal.near : signal.far;
    const values = valuesOf(reading, names[channel]);
    const largest = Math.max(...rows.map((row) => Math.abs((values[row] ?? Number.NaN) - wanted(row))));
    // Half the last printed digit, and the noise of converting a decimal fraction of this size.
    expect(largest).toBeLessThanOrEqual(halfDigits[channel] * (1 + 1e-9));
  });

  it('finds the sampling rate and says where', () => {
    expect(reading.capture?.sampling?.from).toBe(expected.rateFrom);
    // The stamps are exact or the rate is stated: what is left is the division's last digit.
    expect(reading.capture?.sampling?.rateHz).toBeCloseTo(signal.rateHz, 6);
    expect(reading.capture?.sampling?.durationS).toBeCloseTo(signal.rows / signal.rateHz, 12);
  });

  it('says how the file is written', () => {
    const { encoding, delimiter, decimalMark, firstDataLine } = expected;
    expect(reading.capture?.table).toMatchObject({
      encoding,
      delimiter,
      decimalMark,
      firstDataLine,
      rows: signal.rows,
    });
  });

  it('names the channels, in volts, with the roles that their names tell', () => {
    const columns = reading.capture?.columns ?? [];
    expect(columns.map(({ name }) => name)).toEqual(names);
    expect(columns.map(({ unit }) => unit)).toEqual(['V', 'V']);
    expect(columns.map(({ role }) => role)).toEqual(expected.roles ?? [undefined, undefined]);
  });

  it('reads the same under the declaration that it offers', () => {
    const again = readCapture(bytes, 'capture.csv', reading.declaration ?? {});
    expect(again.problems).toEqual([]);
    expect(again.capture?.sampling?.rateHz).toBe(reading.capture?.sampling?.rateHz);
    expect(again.capture?.columns.map(({ name, role, values }) => ({ name, role, values }))).toEqual(
      reading.capture?.columns.map(({ name, role, values }) => ({ name, role, values })),
    );
  });
});

describe('what stands around the numbers', () => {
  it('keeps keys and values beside the rows as notes', () => {
    const beside = layouts.find(({ title }) => title.includes('beside the rows'));
    const { capture } = readCapture(beside?.bytes ?? new Uint8Array(), 'capture.csv');
    expect(capture?.table.notes).toEqual([
      { key: 'bench', value: 'north', line: 2 },
      { key: 'attic', value: '3', line: 3 },
      { key: 'coupling', value: 'direct', line: 4 },
    ]);
  });

  it('keeps them on the right too, under no header', () => {
    const rows = ['0,1,,place,attic,', '1,2,,load,8,', '2,3,,,,', '3,4,,,,'];
    const reading = readCapture(encode(`time,v\n${rows.join('\n')}\n`, 'utf-8'), 'capture.csv');
    expect(reading.problems).toEqual([]);
    expect(reading.capture?.table.notes.map(({ key, value }) => `${key} ${value}`)).toEqual([
      'place attic',
      'load 8',
    ]);
    expect(valuesOf(reading, 'v')).toEqual([1, 2, 3, 4]);
  });

  it('lists each line that is passed over with what it was taken for', () => {
    const preamble = layouts.find(({ title }) => title.includes('rate in the preamble'));
    const { capture } = readCapture(preamble?.bytes ?? new Uint8Array(), 'capture.csv');
    expect(capture?.table.passedOver.map(({ line, as }) => `${line} ${as}`)).toEqual([
      '1 preamble',
      '2 preamble',
      '3 preamble',
      '4 blank',
      '5 header',
    ]);
    expect(capture?.table.notes).toContainEqual({ key: 'Remark', value: 'after warming up', line: 3 });
  });
});
