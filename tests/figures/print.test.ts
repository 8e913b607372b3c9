import { expect, test } from 'vitest';
import { allDefinitions, definitionOf, type Figure, figureText, methods } from '../../src/figures/index.ts';

const figure = (part: Partial<Figure>): Figure => ({
  id: 'thd',
  value: 0.0048,
  unit: '1',
  conditions: {},
  provenance: { file: 'a.csv', sha256: null, lines: null, method: 'thd', settings: {} },
  ...part,
});

test.each<[Partial<Figure>, string]>([
  [{}, '0.480 %'],
  [{ low: 0.0043, high: 0.0053 }, '0.480 % ± 0.050'],
  [{ low: 0.0037, high: 0.0056 }, '0.480 % (0.370 to 0.560)'],
  [{ value: 0.0173436, low: 0.0173401, high: 0.0173471 }, '1.734 % ± 0.001'],
  [
    { id: 'fundamental-frequency', value: 999.699988, unit: 'Hz', low: 999.699963, high: 999.700013 },
    '999.7000 Hz ± 0.0001',
  ],
  [{ value: 0.0001, low: 0, high: 0.0002 }, '0.010 % (0.000 to 0.020)'],
  [{ value: 0.0001, remark: 'not told from noise' }, '0.0100 %, not told from noise'],
  [{ id: 'sinad', value: 41.62, unit: 'dB' }, '41.6 dB'],
  [{ id: 'fundamental-level', value: 0.65412, unit: 'V', low: 0.6531, high: 0.6551 }, '654.1 mV ± 1.0'],
  [{ id: 'upper-limit-3db', value: 31234, unit: 'Hz' }, '31.2 kHz'],
  [{ value: null, absent: 'The sweep ends at 1 W.' }, 'The sweep ends at 1 W.'],
])('a figure prints with the digits its interval supports: %o', (part, text) => {
  expect(figureText(figure(part)).replaceAll('\u00a0', ' ')).toBe(text);
});

test('every figure has its method on the methods page', () => {
  const anchors = new Set(methods.map(({ id }) => id));
  for (const { id, method } of allDefinitions()) expect(anchors.has(method), id).toBe(true);
});

test('harmonics are a family that the registry knows by pattern', () => {
  expect(definitionOf('harmonic-7')?.name).toBe('Seventh harmonic');
  expect(definitionOf('harmonic-12')?.name).toBe('12th harmonic');
  expect(definitionOf('harmonic-2-at-1khz')?.method).toBe('between-points');
  expect(definitionOf('loudness')).toBeNull();
  expect(definitionOf('constructor')).toBeNull();
});
