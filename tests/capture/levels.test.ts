import { describe, expect, it } from 'vitest';
import type { CaptureDeclaration } from '../../src/capture/index.ts';
import { columnNamed, problemLines, readText, valuesOf } from './helpers.ts';

/** Reads a frequency sweep with one value column and gives its first value with the column. */
function level(header: string, value: string, declaration: CaptureDeclaration = {}) {
  const reading = readText(`frequency (Hz);${header}\n10;${value}\n20;${value}\n`, {
    delimiter: ';',
    ...declaration,
  });
  expect(problemLines(reading)).toEqual([]);
  const column = reading.capture?.columns[1];
  return { value: column?.values[0] ?? Number.NaN, unit: column?.unit, quantity: column?.quantity };
}

/** Double precision through one power of ten. */
const close = 12;

describe('levels come out as rms values in SI units', () => {
  it.each<[string, string, number, string, string]>([
    ['level (V)', '2', 2, 'V', 'voltage'],
    ['level (mV)', '250', 0.25, 'V', 'voltage'],
    ['level (µV)', '250', 250e-6, 'V', 'voltage'],
    ['current (mA)', '60', 0.06, 'A', 'current'],
    ['output (W)', '5', 5, 'W', 'power'],
    ['level (Vrms)', '2', 2, 'V', 'voltage'],
    // A sine of 1 V rms has a peak of √2 V and 2√2 V from peak to peak.
    ['level (Vpk)', String(Math.SQRT2), 1, 'V', 'voltage'],
    ['level (V peak)', String(Math.SQRT2), 1, 'V', 'voltage'],
    ['level (Vpp)', String(2 * Math.SQRT2), 1, 'V', 'voltage'],
    ['level (mVp-p)', String(2000 * Math.SQRT2), 1, 'V', 'voltage'],
    // 0 dBV is 1 V; 0 dBu is √0.6 V, the voltage of 1 mW in 600 Ω; 0 dBm is 1 mW.
    ['level (dBV)', '-20', 0.1, 'V', 'voltage'],
    ['level (dBu)', '0', Math.sqrt(0.6), 'V', 'voltage'],
    ['level (dBu)', '20', 10 * Math.sqrt(0.6), 'V', 'voltage'],
    ['level (dBmV)', '40', 0.1, 'V', 'voltage'],
    ['level (dBm)', '30', 1, 'W', 'power'],
    ['level (dB re 0.5 V)', '6.020599913279624', 1, 'V', 'voltage'],
    ['level (dB re 1 mW)', '30', 1, 'W', 'power'],
    ['gain (dB)', '20', 10, '1', 'gain'],
    ['THD (%)', '0.5', 0.005, '1', 'thd'],
    ['THD (dB)', '-60', 0.001, '1', 'thd'],
    ['THD+N (%)', '0.5', 0.005, '1', 'thd-plus-noise'],
    ['H3 (%)', '0.5', 0.005, '1', 'harmonic'],
    ['2nd harmonic (dB)', '-40', 0.01, '1', 'harmonic'],
    ['2nd harmonic (dBV)', '-40', 0.01, 'V', 'harmonic'],
  ])('%s %s', (header, text, value, unit, quantity) => {
    const found = level(header, text);
    expect(found).toMatchObject({ unit, quantity });
    expect(found.value).toBeCloseTo(value, close);
  });
});

describe('what a conversion needs is declared for the column or for the file', () => {
  it.each<[string, string, CaptureDeclaration, number]>([
    ['level (dBFS)', '-20', { fullScale: 2 }, 0.2],
    ['level (dBFS)', '-20', { columns: { out: { column: 2, fullScale: 4 } } }, 0.4],
    ['level (dB)', '-20', { reference: 1.5 }, 0.15],
    ['level (dB)', '-20', { columns: { out: { column: 2, reference: 3 } } }, 0.3],
    ['level (V)', '2', { levelAs: 'peak' }, Math.SQRT2],
    [
      'level (V)',
      '2',
      { levelAs: 'rms', columns: { out: { column: 2, levelAs: 'peak-to-peak' } } },
      Math.SQRT1_2,
    ],
    ['level (Vpp)', '2', { columns: { out: { column: 2, levelAs: 'peak' } } }, Math.SQRT2],
    ['level (mV)', '20', { columns: { out: { column: 2, scale: 10 } } }, 0.2],
    ['level (dBV)', '-20', { columns: { out: { column: 2, scale: 10 } } }, 1],
    ['level (V)', '20', { columns: { out: { column: 2, unit: 'mV' } } }, 0.02],
    // 5 W in 8 Ω is √40 V; 30 dBm in 8 Ω is √8 V; 4 V across 8 Ω is 2 W.
    ['output (W)', '5', { loadOhm: 8, columns: { out: { column: 2, quantity: 'voltage' } } }, Math.sqrt(40)],
    [
      'output (dBm)',
      '30',
      { loadOhm: 8, columns: { out: { column: 2, quantity: 'voltage' } } },
      Math.sqrt(8),
    ],
    ['output (V)', '4', { loadOhm: 8, columns: { out: { column: 2, quantity: 'power' } } }, 2],
  ])('%s %s under %j', (header, text, declaration, value) => {
    expect(level(header, text, declaration).value).toBeCloseTo(value, close);
  });
});

describe('waveforms hold samples, not levels', () => {
  it('a global levelAs leaves them alone', () => {
    const reading = readText('time (s),v (V)\n0,1\n1,2\n', { levelAs: 'peak-to-peak' });
    expect(valuesOf(reading, 'v')).toEqual([1, 2]);
  });

  it('a probe ratio and a prefix multiply them', () => {
    const reading = readText('time (ms),v (mV)\n0,1\n1,2\n', {
      columns: { plate: { column: 'v', scale: 100 } },
    });
    expect(columnNamed(reading, 'plate')).toMatchObject({
      factor: 0.1,
      unit: 'V',
      conversion: 'mV, times 0.1',
    });
    expect(valuesOf(reading, 'plate')).toEqual([0.1, 0.2]);
  });
});

describe('angles and temperatures', () => {
  it('radians become degrees', () => {
    const { value, unit } = level('phase (rad)', String(Math.PI / 2), { columns: {} });
    // Two roundings of a double near 90.
    expect(value).toBeCloseTo(90, 10);
    expect(unit).toBe('deg');
  });
});
