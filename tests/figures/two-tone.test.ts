import { describe, expect, it } from 'vitest';
import {
  contestedFigures,
  definitionOf,
  figureText,
  isContested,
  methods,
  twoToneFigures,
  waveformFigures,
} from '../../src/figures/index.ts';
import { summariseWaveform } from '../../src/signal/index.ts';
import { channel, tone } from '../signal/signals.ts';
import { gentle, noisy, summaryOf, type TwoTones, twoTones } from '../signal/two-tones.ts';

const context = {
  conditions: { level: '1 W' },
  provenance: { file: 'logs/x/two.csv', sha256: 'abc', lines: [2, 9] as [number, number] },
};
const rate = 192_000;
const equal: TwoTones = { length: 8192, frequencies: [19_000 / rate, 20_000 / rate], amplitudes: [0.5, 0.5] };
const fourToOne: TwoTones = { length: 8192, frequencies: [250 / rate, 8000 / rate], amplitudes: [0.8, 0.2] };

const figuresOf = (values: Float64Array) => twoToneFigures(summaryOf(values), context);

describe('figures of a two-tone capture', () => {
  const beat = figuresOf(noisy(twoTones(equal, gentle), 1e-4, 4));
  const ratioOf = (id: string) => beat.find((figure) => figure.id === id)?.value ?? Number.NaN;

  it('hold each form of difference-frequency distortion under a name that says its reference', () => {
    expect(ratioOf('difference-second-one-tone') / ratioOf('difference-second')).toBeCloseTo(2, 12);
    expect(definitionOf('difference-second')?.name).toContain('re sum of tones');
    expect(definitionOf('difference-second-one-tone')?.name).toContain('re one tone');
    expect(definitionOf('difference-third-rss')?.name).toContain('root sum of squares');
    expect(beat.some(({ id }) => id.startsWith('modulation'))).toBe(false);
  });

  it('hold modulation distortion instead for a low and a high tone', () => {
    const ids = figuresOf(twoTones(fourToOne, gentle)).map(({ id }) => id);
    expect(ids.slice(0, 4)).toEqual([
      'modulation-second',
      'modulation-third',
      'modulation-total',
      'modulation-sidebands',
    ]);
    expect(ids.some((id) => id.startsWith('difference'))).toBe(false);
  });

  it('have a definition, a method with a section of its own, an interval and an origin each', () => {
    for (const { id, provenance, subject } of beat) {
      expect(definitionOf(id)?.name, id).toMatch(/\S/);
      expect(methods.map((method) => method.id)).toContain(provenance.method);
      expect(provenance).toMatchObject({ file: 'logs/x/two.csv', lines: [2, 9] });
      expect(subject).toBe('out');
    }
    expect(beat.find(({ id }) => id === 'difference-third')).toMatchObject({
      low: expect.any(Number),
      high: expect.any(Number),
    });
  });

  it('name every line by its combination, those of high order only where they are told from noise', () => {
    const names = beat
      .filter(({ id }) => id.startsWith('intermodulation-'))
      .map(({ id }) => definitionOf(id)?.name);
    expect(names).toEqual(
      ['f2 − f1', 'f2 + f1', '2f1 − f2', '2f2 − f1', 'f2 + 2f1', '2f2 + f1'].map(
        (name) => `Line ${name} (re upper tone)`,
      ),
    );
    expect(definitionOf('intermodulation-f9-minus-f1')).toBeNull();
  });

  it('say of noise alone that it is not told from noise', () => {
    const pure = figuresOf(noisy(twoTones(equal), 1e-3, 5)).find(({ id }) => id === 'difference-second');
    expect(pure).toMatchObject({ low: 0, remark: 'not told from noise' });
  });

  it('give the reason where there are no tones', () => {
    const [first, ...others] = figuresOf(noisy(new Float64Array(4096), 1, 2));
    expect(first).toMatchObject({ id: 'modulation-second', value: null });
    for (const figure of [first, ...others]) {
      if (figure?.value === null) expect(figureText(figure)).toMatch(/^No two lines stand clear/);
    }
  });
});

describe('contested weightings', () => {
  const values = tone(8192, { frequency: 47.3 / 8192, amplitudes: [1, 0.01, 0.005, 0.002, 0.001] });
  const summary = summariseWaveform([channel(values)], 48_000);
  const contested = contestedFigures(summary, context);

  it('stand apart from the figures of a waveform and are marked as contested', () => {
    expect(contested.map(({ id }) => id)).toEqual(['thd-weighted-rma', 'thd-weighted-shorter']);
    expect(contested.every(isContested)).toBe(true);
    expect(waveformFigures(summary, context).some(isContested)).toBe(false);
  });

  it('have a method that names both sources and says that they are contested', () => {
    const method = methods.find(({ id }) => id === 'contested-weightings');
    expect(method?.text.join(' ')).toContain('Contested throughout');
    expect(method?.sources.join(' ')).toMatch(/Radio Manufacturers.*Shorter/);
  });

  it('do not exist where there are no harmonics', () => {
    const none = summariseWaveform([channel(new Float64Array(64).fill(1))], 48_000);
    expect(contestedFigures(none, context)).toEqual([]);
  });
});
