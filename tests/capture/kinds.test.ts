import { describe, expect, it } from 'vitest';
import { problemLines, readText, valuesOf } from './helpers.ts';

/** Two rows of small ascending numbers under a header. */
const table = (header: string) => {
  const columns = header.split(',').length;
  const row = (first: number) => Array.from({ length: columns }, (_, at) => first + at / 8).join(',');
  return `${header}\n${row(0.5)}\n${row(1.5)}\n`;
};

describe('the columns tell the kind', () => {
  it.each([
    ['time (s),v (V)', 'waveform'],
    ['frequency (Hz),level (dBV)', 'frequency-sweep'],
    ['frequency (Hz),gain (dB),phase (deg)', 'frequency-sweep'],
    ['frequency (Hz),THD (%)', 'frequency-sweep'],
    ['frequency (Hz),THD+N (dB)', 'frequency-sweep'],
    ['frequency (Hz),H2 (%),H3 (%)', 'frequency-sweep'],
    ['frequency (Hz),output (V)', 'frequency-sweep'],
    ['frequency (Hz),impedance (Ω),phase (deg)', 'impedance-sweep'],
    ['f/Hz,|Z|/Ω', 'impedance-sweep'],
    ['output power (W),THD (%)', 'level-sweep'],
    ['input level (dBu),output level (dBu)', 'level-sweep'],
    ['input (Vrms),output (Vrms),H2 (%),H3 (%)', 'level-sweep'],
    ['plate voltage (V),grid voltage (V),plate current (mA)', 'plate-curves'],
    ['Va (V),Vg1 (V),Ia (mA),Ig2 (mA)', 'plate-curves'],
  ])('%s is a %s', (header, kind) => {
    const reading = readText(table(header));
    expect(problemLines(reading)).toEqual([]);
    expect(reading.capture?.kind).toBe(kind);
  });

  it('a rate makes samples of columns that would otherwise be a question', () => {
    expect(readText(table('v_in,v_out'), { rateHz: 1000 }).capture?.kind).toBe('waveform');
    expect(readText(`Sampling rate,1000\n${table('left,right')}`).capture?.kind).toBe('waveform');
  });

  it('a declared kind wins', () => {
    expect(readText(table('time (s),v (V)'), { kind: 'two-tone' }).capture?.kind).toBe('two-tone');
    expect(readText(table('frequency (Hz),level (dBV)'), { kind: 'spectrum' }).capture?.kind).toBe(
      'spectrum',
    );
    const readings = readText(table('time (s),plate (V)'), { kind: 'readings' });
    expect(readings.capture).toMatchObject({ kind: 'readings', sampling: null });
    expect(readings.capture?.columns.map(({ quantity }) => quantity)).toEqual(['time', 'voltage']);
  });
});

describe('sweeps', () => {
  it('run along their axis', () => {
    const axisOf = (header: string) =>
      readText(table(header)).capture?.columns.flatMap(({ name, axis }) => (axis ? [name] : []));
    expect(axisOf('THD (%),frequency (Hz)')).toEqual(['frequency']);
    expect(axisOf('power (W),input (mVrms),THD (%)')).toEqual(['input']);
    expect(axisOf('power (W),THD (%)')).toEqual(['power']);
    expect(axisOf('level (dBV),THD (%)')).toEqual(['level']);
  });

  it('that run downward are turned round, and said so', () => {
    const reading = readText('frequency (Hz),gain (dB)\n30,0\n20,20\n10,40\n');
    expect(problemLines(reading)).toEqual(['warning 1:1 capture-descending']);
    expect(valuesOf(reading, 'frequency')).toEqual([10, 20, 30]);
    expect(valuesOf(reading, 'gain')).toEqual([100, 10, 1]);
  });

  it('of a spectrum may begin at 0 Hz', () => {
    const reading = readText('frequency (Hz),level (dBV)\n0,-100\n10,-20\n', { kind: 'spectrum' });
    expect(problemLines(reading)).toEqual([]);
    expect(valuesOf(reading, 'frequency')).toEqual([0, 10]);
  });

  it('give distortion columns the level whose words they share, or the declared one', () => {
    const header = 'f (Hz),left level (V),left THD (%),right level (V),right THD (%),H2 (%)';
    const owners = (declaration = {}) =>
      readText(table(header), declaration).capture?.columns.map(
        ({ name, channel }) => `${name} ${channel ?? '-'}`,
      );
    expect(owners()).toEqual([
      'f -',
      'left-level -',
      'left-THD left-level',
      'right-level -',
      'right-THD right-level',
      'H2 -',
    ]);
    expect(owners({ columns: { second: { column: 6, channel: 'right-level' } } })?.at(-1)).toBe(
      'second right-level',
    );
  });

  it('keep one of the frequency columns where each channel has its own', () => {
    const reading = readText('f (Hz),a (dBV),f (Hz),b (dBV)\n10,1,10,2\n20,1,20,2\n');
    expect(problemLines(reading)).toEqual([]);
    expect(reading.capture?.columns.map(({ name }) => name)).toEqual(['f', 'a', 'b']);
  });

  it('know the order of a harmonic however it is written', () => {
    const orders = [
      'H2 (%)',
      'hd3 (%)',
      '4th harmonic (%)',
      'harmonic 5 (%)',
      'sixth harmonic (%)',
      'h7_pct',
      '8th [%]',
    ];
    const reading = readText(table(['frequency (Hz)', ...orders].join(',')));
    expect(reading.capture?.columns.slice(1).map(({ order }) => order)).toEqual([2, 3, 4, 5, 6, 7, 8]);
  });
});

describe('readings', () => {
  it('leave a column of labels out, and say so', () => {
    const reading = readText('sample,Va (V)\nfirst,300\nsecond,301\n', { kind: 'readings' });
    expect(problemLines(reading)).toEqual(['warning 2:1 capture-text-column']);
    expect(valuesOf(reading, 'Va')).toEqual([300, 301]);
  });
});
