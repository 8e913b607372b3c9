import { expect, test } from 'vitest';
import { type Figure, type FigureContext, waveformFigures } from '../../src/figures/index.ts';
import { summariseWaveform } from '../../src/signal/index.ts';

const context: FigureContext = {
  conditions: { level: '1 W' },
  provenance: { file: 'logs/a/tone.csv', sha256: 'ab', lines: [2, 4097] },
};
const rateHz = 48_000;

/** Noise that is the same in every run, of unit variance: twelve uniform numbers of a linear congruential sequence. */
function noise(): () => number {
  let state = 20_261_125;
  const uniform = () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  return () => Array.from({ length: 12 }, uniform).reduce((sum, value) => sum + value, -6);
}

function figuresOf(second: number, sigma: number): Map<string, Figure> {
  const next = noise();
  const values = Float64Array.from({ length: 4096 }, (_, k) => {
    const angle = (2 * Math.PI * 1001 * k) / rateHz;
    return Math.cos(angle) + second * Math.cos(2 * angle + 1) + sigma * next();
  });
  const channel = { name: 'out', role: 'response', unit: 'V', values } as const;
  const figures = waveformFigures(summariseWaveform([channel], rateHz), context);
  return new Map(figures.map((figure) => [figure.id, figure]));
}

test('the figures of a waveform carry channel, conditions, lines and settings', () => {
  const thd = figuresOf(0.01, 1e-4).get('thd');
  expect(thd).toMatchObject({
    subject: 'out',
    conditions: { level: '1 W' },
    provenance: { file: 'logs/a/tone.csv', lines: [2, 4097], method: 'thd' },
  });
  expect(thd?.provenance.settings).toMatchObject({ 'Harmonics counted': '2 to 10' });
});

test('a harmonic well above the noise has an interval that holds the true value and no remark', () => {
  const second = figuresOf(0.01, 1e-4).get('harmonic-2');
  expect(second?.low).toBeLessThan(0.01);
  expect(second?.high).toBeGreaterThan(0.01);
  expect(second?.remark).toBeUndefined();
});

test('noise alone is called noise: every harmonic and the total say that they are not told from it', () => {
  const figures = figuresOf(0, 0.01);
  expect(figures.get('thd')).toMatchObject({ low: 0, remark: 'not told from noise' });
  expect(figures.get('harmonic-2')).toMatchObject({ low: 0, remark: 'not told from noise' });
});

test('a figure that the record does not support is null and says why', () => {
  const flat = { name: 'out', role: null, unit: 'V', values: new Float64Array(1000) } as const;
  const figures = waveformFigures(summariseWaveform([flat], rateHz), context);
  for (const id of ['thd', 'sinad', 'fundamental-frequency']) {
    expect(figures.find((figure) => figure.id === id)).toMatchObject({
      value: null,
      absent: expect.stringMatching(/equal/),
    });
  }
});
