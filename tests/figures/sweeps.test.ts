import { expect, test } from 'vitest';
import {
  definitionOf,
  type Figure,
  type FigureContext,
  frequencySweepFigures,
  impedanceSweepFigures,
  levelSweepFigures,
} from '../../src/figures/index.ts';
import {
  summariseFrequencySweep,
  summariseImpedanceSweep,
  summariseLevelSweep,
} from '../../src/signal/index.ts';

const context: FigureContext = {
  conditions: {},
  provenance: { file: 'a.csv', sha256: null, lines: [2, 40] },
};
const byId = (figures: Figure[]) => Object.fromEntries(figures.map((figure) => [figure.id, figure]));

const frequencyHz = Float64Array.from({ length: 60 }, (_, k) => 20 * 1000 ** (k / 59));
/** First-order low-pass with its corner at 10 kHz. */
const level = frequencyHz.map((hertz) => 2 / Math.hypot(1, hertz / 10_000));

test('a frequency sweep gives limits where it reaches them and the reason where it does not', () => {
  const summary = summariseFrequencySweep({ frequencyHz, level });
  const figures = byId(frequencySweepFigures(summary, { channel: 'out', unit: 'V' }, context));
  // −3.000 dB of the level at 1 kHz, which is itself 0.043 dB down: a little above the corner; the grid adds 0.5 %.
  expect(figures['upper-limit-3db']?.value).toBeCloseTo(10_070, -2);
  expect(figures['lower-limit-3db']).toMatchObject({
    value: null,
    absent: expect.stringMatching(/20\.00\sHz/),
  });
  expect(figures['level-at-1khz']).toMatchObject({ unit: 'V' });
  expect(figures['largest-deviation']?.conditions).toMatchObject({
    at: expect.stringMatching(/20.0\u00a0kHz/),
  });
});

test('a sweep of gain states its reference in decibels, one of power in watts', () => {
  const gain = summariseFrequencySweep({ frequencyHz, level: frequencyHz.map(() => 10) });
  expect(
    byId(frequencySweepFigures(gain, { channel: 'gain', unit: '1' }, context))['gain-at-1khz'],
  ).toMatchObject({
    value: 20,
    unit: 'dB',
  });
  const roots = summariseFrequencySweep({ frequencyHz, level: frequencyHz.map(() => 3) });
  expect(
    byId(frequencySweepFigures(roots, { channel: 'p', unit: 'W' }, context))['level-at-1khz']?.value,
  ).toBeCloseTo(9, 12);
});

test('a level sweep gives the power at each stated distortion or says what it reached', () => {
  const powerW = Float64Array.of(0.1, 1, 10);
  const summary = summariseLevelSweep({ powerW, thd: Float64Array.of(0.001, 0.005, 0.02) });
  const figures = byId(levelSweepFigures(summary, { channel: 'out', unit: 'W' }, context));
  expect(figures['power-at-1-percent']?.value).toBeCloseTo(10 ** 0.5, 6); // half-way on log-log paper: 0.005 to 0.02
  expect(figures['power-at-3-percent']).toMatchObject({
    value: null,
    absent: expect.stringMatching(/10.0\u00a0W/),
  });
  expect(figures['thd-at-1w']?.value).toBe(0.005);
  expect(figures['largest-power']?.value).toBe(10);
});

test('every figure of a sweep is in the registry', () => {
  const thd = frequencyHz.map(() => 0.01);
  const harmonics = [{ order: 2, ratio: thd }];
  const figures = [
    ...frequencySweepFigures(
      summariseFrequencySweep({ frequencyHz, level, thd, harmonics }),
      { channel: 'a', unit: 'V' },
      context,
    ),
    ...levelSweepFigures(summariseLevelSweep({ powerW: level, thd }), { channel: 'a', unit: 'W' }, context),
    ...impedanceSweepFigures(
      summariseImpedanceSweep({ frequencyHz, ohm: level }),
      { channel: 'z', unit: 'Ω' },
      context,
    ),
  ];
  expect(figures.length).toBeGreaterThan(14);
  for (const { id, provenance } of figures) expect(definitionOf(id)?.method, id).toBe(provenance.method);
});
