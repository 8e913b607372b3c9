import { expect, test } from 'vitest';
import { briefFigures, type Figure } from '../../src/figures/index.ts';

const figure = (id: string): Figure => ({
  id,
  value: 1,
  unit: '1',
  conditions: {},
  provenance: { file: 'a.csv', sha256: null, lines: null, method: 'thd', settings: {} },
});

test('a log shows the figures asked for first, in their order, and leaves the rest to the capture page', () => {
  const ids = [
    'thd',
    'harmonic-2',
    'harmonic-5',
    'harmonic-6',
    'harmonic-10',
    'sinad',
    'rms',
    'dc',
    'hum',
    'power-at-1-percent',
    'intermodulation-2f1-minus-f2',
    'intermodulation-3f1-minus-f2',
    'intermodulation-2f2-plus-2f1',
    'signal-to-noise-a-weighted',
  ];
  expect(briefFigures(ids.map(figure)).map(({ id }) => id)).toEqual([
    'thd',
    'harmonic-2',
    'harmonic-5',
    'sinad',
    'hum',
    'power-at-1-percent',
    'intermodulation-2f1-minus-f2',
  ]);
});
