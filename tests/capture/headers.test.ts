import { describe, expect, it } from 'vitest';
import { type CaptureDeclaration, readCapture } from '../../src/capture/index.ts';
import { problemLines, readText } from './helpers.ts';

const readBytes = (bytes: Uint8Array, declaration?: CaptureDeclaration) =>
  readCapture(bytes, 'capture.csv', declaration);

/** Reads two samples under a time column and a header, and gives the second column back. */
function columnUnder(header: string, declaration: CaptureDeclaration = {}) {
  const reading = readText(`time;${header}\n0;1\n1;2\n`, { delimiter: ';', ...declaration });
  expect(problemLines(reading)).toEqual([]);
  const column = reading.capture?.columns[0];
  return { name: column?.name, unit: column?.unit, factor: column?.factor, role: column?.role };
}

describe('a header is a name with or without a unit', () => {
  it.each([
    ['CH1 (V)', 'CH1', 'V', 1],
    ['CH1 [mV]', 'CH1', 'V', 1e-3],
    ['CH1(µV)', 'CH1', 'V', 1e-6],
    ['Voltage/kV', 'Voltage', 'V', 1e3],
    ['Plate current / mA', 'Plate-current', 'A', 1e-3],
    ['Voltage in mV', 'Voltage', 'V', 1e-3],
    ['Probe, mV', 'Probe', 'V', 1e-3],
    ['Probe mV', 'Probe', 'V', 1e-3],
    ['probe_mV', 'probe', 'V', 1e-3],
    ['voltage_v', 'voltage', 'V', 1],
    ['Probe (Volts)', 'Probe', 'V', 1],
    ['Probe [VOLT]', 'Probe', 'V', 1],
    ['CH1 (V) averaged', 'CH1-averaged', 'V', 1],
    ['Output voltage', 'Output-voltage', 'V', 1],
    ['v_out', 'v_out', 'V', 1],
    ['u2', 'u2', 'V', 1],
    // No unit and no word for one: a bare number.
    ['CH1', 'CH1', '', 1],
    ['Channel A', 'Channel-A', '', 1],
    ['Left (kitchen)', 'Left-kitchen', '', 1],
    ['1', '1', '', 1],
  ])('%s', (header, name, unit, factor) => {
    expect(columnUnder(header)).toMatchObject({ name, unit, factor });
  });

  it.each([
    ['in', 'stimulus'],
    ['Input (V)', 'stimulus'],
    ['generator', 'stimulus'],
    ['vOut', 'response'],
    ['Output of stage 2', 'response'],
    ['in minus out', undefined],
    ['inner', undefined],
  ])('%s has the role %s', (header, role) => {
    expect(columnUnder(header).role).toBe(role);
  });

  it('names are made distinct, and said so', () => {
    const reading = readText('time,v,v,v\n0,1,2,3\n1,2,3,4\n');
    expect(reading.capture?.columns.map(({ name }) => name)).toEqual(['v', 'v-2', 'v-3']);
    expect(problemLines(reading)).toEqual(['warning 1:1 capture-double-name']);
  });

  it('columns without a name are numbered', () => {
    const { capture } = readText('0.5\n-0.5\n0.25\n', { rateHz: 1000 });
    expect(capture?.columns.map(({ name, header }) => ({ name, header }))).toEqual([
      { name: 'ch1', header: null },
    ]);
  });
});

describe('a unit comes from the best source', () => {
  const second = (text: string, declaration: CaptureDeclaration = {}) =>
    readText(text, declaration).capture?.columns[0];

  it('the unit row before the preamble', () => {
    expect(second('Vertical unit: mV\ntime,probe\ns,kV\n0,1\n1,2\n')?.factor).toBe(1000);
  });

  it('the header before the preamble', () => {
    expect(second('Vertical unit: mV\ntime,probe (kV)\n0,1\n1,2\n')?.factor).toBe(1000);
  });

  it('the preamble where nothing else says it', () => {
    expect(second('Vertical unit: mV\nHorizontal unit: ms\ntime,probe\n0,1\n1,2\n')).toMatchObject({
      factor: 0.001,
      quantity: 'voltage',
    });
    expect(readText('Horizontal unit: ms\ntime,probe\n0,1\n1,2\n').capture?.sampling?.rateHz).toBe(1000);
    expect(second('probe unit: mV\ntime,probe\n0,1\n1,2\n')?.factor).toBe(0.001);
  });

  it('the declaration before everything', () => {
    const declaration: CaptureDeclaration = { columns: { plate: { column: 'probe', unit: 'kV' } } };
    expect(second('Vertical unit: mV\ntime,probe\ns,V\n0,1\n1,2\n', declaration)).toMatchObject({
      name: 'plate',
      factor: 1000,
    });
  });
});

describe('a declaration wins over what the file suggests', () => {
  it('names a column by header, by label, without regard to case, or by position', () => {
    const text = 'time (s),CH1 (mV)\n0,1\n1,2\n';
    for (const column of ['CH1 (mV)', 'CH1', 'ch1', 2]) {
      const { capture } = readText(text, { columns: { out: { column } } });
      expect(capture?.columns[0]).toMatchObject({
        name: 'out',
        header: 'CH1 (mV)',
        position: 2,
        factor: 0.001,
      });
    }
  });

  it('gives role, alternative and channel', () => {
    const { capture } = readText('time,v_in,v_out\n0,1,2\n1,2,3\n', {
      columns: { v_in: { column: 2, role: 'response', alternative: 'pentode' } },
    });
    expect(capture?.columns[0]).toMatchObject({ role: 'response', alternative: 'pentode' });
    expect(capture?.columns[1]).toMatchObject({ role: 'response' });
  });

  it('delimiter and decimal mark decide a row that can be read in two ways', () => {
    const text = '1,234\n-2,345\n1,5\n';
    expect([...(readText(text, { rateHz: 1, decimalMark: ',' }).capture?.columns[0]?.values ?? [])]).toEqual([
      1.234, -2.345, 1.5,
    ]);
    const pair = readText(text, { rateHz: 1, delimiter: ',', decimalMark: '.' });
    expect(pair.capture?.columns.map(({ values }) => [...values])).toEqual([
      [1, -2, 1],
      [234, 345, 5],
    ]);
  });

  it('positions of columns decide it as well', () => {
    const columns = { left: { column: 1 }, right: { column: 2 } };
    const { capture } = readText('1,234\n-2,345\n1,5\n', { rateHz: 1, columns });
    expect(capture?.columns.map(({ name, values }) => [name, ...values])).toEqual([
      ['left', 1, -2, 1],
      ['right', 234, 345, 5],
    ]);
  });

  it('skip leaves lines out that look like rows', () => {
    const { capture, problems } = readText('1,2\n3,4\ntime,v\n0,1\n1,2\n', { skip: 2 });
    expect(problems).toEqual([]);
    expect(capture?.table).toMatchObject({ firstDataLine: 4, rows: 2 });
  });

  it('encoding reads UTF-16 without a mark', () => {
    const bytes = Uint8Array.from('time,v\n0,1\n1,2\n', (letter) => letter.charCodeAt(0));
    const wide = new Uint8Array(bytes.length * 2).map((_, at) => (at % 2 === 0 ? (bytes[at / 2] ?? 0) : 0));
    expect(problemLines(readBytes(wide))).toEqual(['error 1:1 capture-binary']);
    expect(readBytes(wide, { encoding: 'utf-16le' }).capture?.table).toMatchObject({
      encoding: 'utf-16le',
      rows: 2,
    });
  });
});
