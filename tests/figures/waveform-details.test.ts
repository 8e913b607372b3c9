import { describe, expect, test } from 'vitest';
import {
  allDefinitions,
  definitionOf,
  type Figure,
  figureText,
  harmonicTable,
  humTable,
  type MeasuredChannel,
  type Measurement,
  methods,
  waveformFigures,
} from '../../src/figures/index.ts';
import type { Instrument } from '../../src/figures/instrument/instrument.ts';
import { type Channel, summariseWaveform, type WaveformOptions } from '../../src/signal/index.ts';
import { sum, tone, whiteNoise } from '../signal/signals.ts';

const rateHz = 48_000;
const length = 9600;
const context = {
  conditions: {},
  provenance: { file: 'a.csv', sha256: null, lines: [2, 9601] as [number, number] },
};

const hum = tone(length, { frequency: 50 / rateHz, amplitudes: [0, 4e-3], phases: [0, 1] });
const stimulus: Channel = {
  ...{ name: 'in', role: 'stimulus', unit: 'V' },
  values: sum(tone(length, { frequency: 0.0208, amplitudes: [0.1, 0.001] }), whiteNoise(length, 1e-5, 1)),
};
const response: Channel = {
  ...{ name: 'out', role: 'response', unit: 'V' },
  values: sum(
    tone(length, { frequency: 0.0208, amplitudes: [2, 0.06, 0.01], phases: [1, 0, 2] }),
    hum,
    whiteNoise(length, 1e-4, 2),
  ),
};

const summaryOf = (channels: Channel[], options: WaveformOptions = {}) =>
  summariseWaveform(channels, rateHz, options);

function figuresOf(channels: Channel[], options: WaveformOptions = {}): Map<string, Figure> {
  const figures = waveformFigures(summaryOf(channels, options), context);
  return new Map(figures.map((figure) => [`${figure.subject} ${figure.id}`, figure]));
}

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('the further figures of a waveform', () => {
  const figures = figuresOf([stimulus, response], { loadOhm: 8, rated: { powerW: 3, loadOhm: 8 } });

  test('every one has a definition and a section of the methods page', () => {
    const sections = methods.map(({ id }) => id);
    for (const { id, provenance } of figures.values()) {
      expect(definitionOf(id), id).not.toBeNull();
      expect(sections).toContain(provenance.method);
    }
    for (const { method } of allDefinitions()) expect(sections).toContain(method);
  });

  test('gain and phase belong to the response and name the stimulus', () => {
    // 20 lg 20 is 26.0206 dB; 1 rad is 57.2958°.
    expect(figures.get('out gain-at-fundamental')?.value).toBeCloseTo(26.0206, 3);
    expect(figures.get('out phase-at-fundamental')?.value).toBeCloseTo(57.2958, 1);
    expect(figures.get('out gain-at-fundamental')?.remark).toBe('from in');
    expect(figures.has('in gain-at-fundamental')).toBe(false);
  });

  test('what was added is two bounds and is called one', () => {
    // 3.04 % in the response, 1 % in the stimulus: between their difference and their sum.
    const [least, most] = ['least', 'most'].map((end) => figures.get(`out added-distortion-${end}`));
    expect(least?.value).toBeCloseTo(0.0204, 3);
    expect(most?.value).toBeCloseTo(0.0404, 3);
    expect([least?.remark, most?.remark]).toEqual(['a bound', 'a bound']);
  });

  test('power says into what, and is that of responses only', () => {
    // 2² / (2 · 8)
    expect(figures.get('out fundamental-power')?.value).toBeCloseTo(0.25, 4);
    expect(plain(figures.get('out output-power')?.remark ?? '')).toBe('into 8.00 Ω');
    expect(figures.has('in output-power')).toBe(false);
  });

  test('signal-to-noise says re what', () => {
    expect(plain(figures.get('out signal-to-noise')?.remark ?? '')).toBe('re the rated output, 4.90 V');
    expect(plain(figures.get('in signal-to-noise')?.remark ?? '')).toBe('re the fundamental, 70.7 mV');
  });

  test('noise says its band, and the detector where the curve is known with another', () => {
    expect(plain(figures.get('out band-noise')?.remark ?? '')).toBe('20.0 Hz to 20.0 kHz');
    expect(figures.get('out noise-itu468')?.remark).toContain('rms detector');
  });

  test('hum has an interval that holds it', () => {
    const { low = 1, high = 0 } = figures.get('out hum') ?? {};
    // 4 mV peak.
    expect(low).toBeLessThan(4e-3 / Math.SQRT2);
    expect(high).toBeGreaterThan(4e-3 / Math.SQRT2);
    expect(figures.get('in hum')?.remark).toBe('not told from noise');
  });

  test('even and odd sums stand beside THD', () => {
    expect(figures.get('out even-harmonics')?.value).toBeCloseTo(0.03, 4);
    expect(figures.get('out odd-harmonics')?.value).toBeCloseTo(0.005, 4);
  });
});

describe('figures that are missing say why', () => {
  test('a record too short for the mains', () => {
    const short = { ...response, values: response.values.subarray(0, 2400) };
    expect(figureText(figuresOf([short]).get('out hum') as Figure)).toContain('four of its cycles');
  });

  test('gain between volts and amperes', () => {
    const absent = figuresOf([stimulus, { ...response, unit: 'A' }]).get('out gain-at-fundamental')?.absent;
    expect(plain(absent ?? '')).toContain('A/V');
  });

  test('a harmonic that a folded order may stand on', () => {
    const folding = { ...response, values: tone(length, { frequency: 1 / 8, amplitudes: [1, 0.01, 0.02] }) };
    const figures = figuresOf([folding]);
    expect(figures.get('out harmonic-3')).toMatchObject({
      value: null,
      absent: expect.stringContaining('order 5'),
    });
    expect(figures.get('out thd')).toMatchObject({
      value: null,
      absent: expect.stringContaining('cannot be trusted'),
    });
  });

  test('a constant record', () => {
    const figures = figuresOf([{ ...response, values: new Float64Array(length).fill(1) }]);
    for (const id of ['crest-factor', 'even-harmonics', 'hum', 'band-noise', 'signal-to-noise']) {
      expect(figures.get(`out ${id}`), id).toMatchObject({
        value: null,
        absent: expect.stringMatching(/\w{4}/),
      });
    }
  });
});

describe('the harmonic profile', () => {
  const summary = summaryOf([stimulus, response]);
  const [input, output] = summary.channels;
  if (!input || !output) throw new Error('no channels');

  test('of a response has the stimulus beside it', () => {
    const table = harmonicTable(output, summary.transfers, null);
    expect(table?.columns.map(({ title }) => title)).toEqual([
      ...['Order', 'Frequency', 'Level', '95 % interval', 'Level', 'Relative phase', 'State'],
      ...['In in', 'Added, bounds'],
    ]);
    const [second] = table?.rows ?? [];
    // 0.06 of 2 is 3 % or −30.5 dB; its phase re the fundamental is 0 − 2·57.3°.
    expect(second?.slice(0, 2)).toEqual(['2', '1996.8']);
    expect(second?.[2]).toMatch(/^3\.00/);
    expect(second?.slice(4, 7)).toEqual(['−30.5', '−114.6', 'above the noise']);
    expect(second?.[7]).toMatch(/^(1\.00|0\.99\d)$/);
    expect(second?.[8]).toMatch(/^(2\.00|1\.99|1\.98) to 4\.0/);
  });

  test('of a stimulus has none', () => {
    expect(harmonicTable(input, summary.transfers, null)?.columns).toHaveLength(7);
  });

  test('gives no phase to what is not told from noise', () => {
    const rows = harmonicTable(output, [], null)?.rows ?? [];
    const hidden = rows.filter((row) => row[6] === 'not told from noise');
    expect(hidden.length).toBeGreaterThan(3);
    expect(hidden.every((row) => row[5] === '–')).toBe(true);
  });

  test('is no table without harmonics', () => {
    expect(harmonicTable({ ...output, harmonics: [] }, [], null)).toBeNull();
  });
});

describe('tables of a channel whose instrument is stated', () => {
  const summary = summaryOf([stimulus, response]);
  const [, output] = summary.channels;
  if (!output) throw new Error('no response');
  const channel: MeasuredChannel = {
    ...{ frequencyHz: 998.4, freedom: 100, gainFreedom: 100, step: null, loadOhm: null },
    ...{ ratedReference: false, harmonics: output.harmonics, twoTone: null },
  };
  const stating = (terms: Omit<Instrument, 'name'>): Measurement => ({
    instrument: { name: 'Meter', ...terms },
    channels: new Map([[output.name, channel]]),
  });
  const bounds = (cell: string | undefined) => (cell ?? '').split(' to ').map(Number);

  test('hold its own distortion in the intervals of harmonics and in the bounds of what was added', () => {
    const own = stating({ ownDistortion: [{ frequencyHz: 1000, ratio: 0.005 }] });
    const [second] = harmonicTable(output, summary.transfers, own)?.rows ?? [];
    // 3 % ± 0.5 %, as an error that is mostly a limit ends at it; added 2 to 4 %, with 1.96 times 0.5 % to either side.
    expect(plain(second?.[3] ?? '')).toMatch(/^± 0\.(49|50|51)$/);
    const [least = 0, most = 0] = bounds(second?.[8]);
    // Three digits are printed; noise is in the fourth.
    expect(Math.abs(least - (2 - 0.98))).toBeLessThan(0.02);
    expect(Math.abs(most - (4 + 0.98))).toBeLessThan(0.02);
  });

  test('say which harmonics the instrument alone could have given', () => {
    const own = stating({ ownDistortion: [{ frequencyHz: 1000, ratio: 0.05 }] });
    const states = harmonicTable(output, [], own)?.rows.map((row) => row[6]) ?? [];
    expect(states[0]).toBe('above the noise, at or below the instrument’s own distortion');
    expect(states[8]).toBe('not told from noise, at or below the instrument’s own distortion');
  });

  test('hold its gain in the intervals of hum', () => {
    const rows = (measurement: Measurement | null) => humTable(output, measurement)?.rows ?? [];
    const half = (cell: string | undefined) => Number(plain(cell ?? '').replace('± ', ''));
    const [noise, both] = [half(rows(null)[1]?.[3]), half(rows(stating({ gainAccuracy: 0.1 }))[1]?.[3])];
    // 10 % of 2.8 mV is 0.28 mV, an even spread: 1.96·0.28/√3 = 0.32 mV beside little noise, but no more than the
    // limit and the noise together. Rounded outward to two digits.
    expect(noise).toBeLessThan(0.05);
    expect(both).toBeGreaterThan(0.28);
    expect(both).toBeLessThan(0.29 + noise);
  });
});

describe('the table of hum', () => {
  test('has every multiple with its state', () => {
    const [, output] = summaryOf([stimulus, response]).channels;
    const rows = (output && humTable(output, null)?.rows) ?? [];
    expect(rows).toHaveLength(10);
    expect(rows[1]?.[4]).toBe('above the noise');
    expect(plain(rows[1]?.[2] ?? '')).toMatch(/^2\.8\d+ mV$/);
    expect(rows[4]?.[4]).toBe('not told from noise');
  });

  test('names the harmonic that a line is left to', () => {
    const values = sum(
      tone(length, { frequency: 100 / rateHz, amplitudes: [1, 0.1] }),
      whiteNoise(length, 1e-4, 3),
    );
    const [output] = summaryOf([{ ...response, values }]).channels;
    const states = (output && humTable(output, null)?.rows.map((row) => row[4])) ?? [];
    expect(states.slice(0, 4)).toEqual([
      'not told from noise',
      'left to the fundamental',
      'not told from noise',
      'left to harmonic 2',
    ]);
  });

  test('is none for a record too short', () => {
    const [output] = summaryOf([{ ...response, values: response.values.subarray(0, 2400) }]).channels;
    expect(output && humTable(output, null)).toBeNull();
  });
});
