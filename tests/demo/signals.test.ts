import { expect, test } from 'vitest';
import { complex, magnitude, over, together } from '../../src/demo/complex.ts';
import { converted } from '../../src/demo/instruments.ts';
import { normalSource, uniformSource } from '../../src/demo/random.ts';
import { tableBytes } from '../../src/demo/table.ts';
import { cosineTone, filtered, rmsOf, sampled, shaped, type Tone } from '../../src/demo/tone.ts';

const peakOf = (tone: Tone, order: number) => rmsOf(tone, order) * Math.SQRT2;

test('uniformSource gives the published 10000th number of its generator', () => {
  const next = uniformSource(0);
  let value = 0;
  for (let i = 0; i < 10_000; i++) value = next();
  // ISO C++ [rand.predef], minstd_rand from state 1 (from memory); exact, as all products stay below 2^53.
  expect(Math.round(value * 2147483647)).toBe(399268537);
});

test('normalSource has mean 0 and variance 1', () => {
  const next = normalSource(7);
  const values = Array.from({ length: 40_000 }, next);
  const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
  const variance = values.reduce((sum, v) => sum + v * v, 0) / values.length;
  // Four standard errors: 4/√40000 for the mean, 4·√(2/40000) for the variance.
  expect(Math.abs(mean)).toBeLessThan(0.02);
  expect(Math.abs(variance - 1)).toBeLessThan(0.0283);
});

test('a polynomial law gives the harmonics of its closed form', () => {
  const tone = shaped(cosineTone(1000, 1), (x) => x + 0.01 * x ** 2 + 0.001 * x ** 3 + 0.0002 * x ** 5);
  // Product formulas of cosines: H1 = 1 + 3/4 k3 + 5/8 k5, H2 = k2/2, H3 = k3/4 + 5/16 k5, H5 = k5/16.
  // 1e-12: sums of 128 doubles of order one.
  expect(Math.abs(peakOf(tone, 1) - 1.000875)).toBeLessThan(1e-12);
  expect(Math.abs(peakOf(tone, 2) - 0.005)).toBeLessThan(1e-12);
  expect(Math.abs(peakOf(tone, 3) - 0.0003125)).toBeLessThan(1e-12);
  expect(Math.abs(peakOf(tone, 5) - 0.0000125)).toBeLessThan(1e-12);
});

test('a filter acts on every harmonic at its own frequency', () => {
  const lowPass = (hz: number) => over(complex(1), complex(1, hz / 2000));
  const tone = filtered(
    shaped(cosineTone(1000, 1), (x) => x + 0.1 * x * x),
    lowPass,
  );
  // First-order low-pass: 1/√(1 + (f/fc)²), at half the corner and at the corner; rounding only.
  expect(Math.abs(peakOf(tone, 1) - 1 / Math.sqrt(1.25))).toBeLessThan(1e-12);
  expect(Math.abs(peakOf(tone, 2) - 0.05 / Math.sqrt(2))).toBeLessThan(1e-12);
});

test('samples of a tone lie on its cosine', () => {
  const samples = sampled(cosineTone(100, 2), 5, 400, 0.0025);
  // Quarter-period steps from a crest delayed by a quarter period; rounding only.
  [0, -2, 0, 2, 0].forEach((value, i) => {
    expect(Math.abs((samples[i] ?? Number.NaN) - value)).toBeLessThan(1e-12);
  });
});

test('two equal impedances together are half of one', () => {
  const half = together(complex(8, 6), complex(8, 6));
  expect(Math.abs(magnitude(half) - 5)).toBeLessThan(1e-12);
});

test('a converter gives whole codes and holds the ends of its range', () => {
  const recording = { count: 400, rateHz: 40e3, startS: 0, seed: 3 };
  const still = { whiteV: 0, flickerV: 0, hum: [] };
  const codes = converted(
    { ...recording, tone: cosineTone(1000, 2), unrest: still },
    { stepV: 0.01, codes: 128, gain: 1, bow: 0, noiseSteps: 0 },
  );
  expect(codes.every(Number.isInteger)).toBe(true);
  expect(Math.max(...codes)).toBe(127);
  expect(Math.min(...codes)).toBe(-128);
});

test('a table is written with its marks, and without a negative zero', () => {
  const bytes = tableBytes(
    {
      delimiter: ';',
      decimalMark: ',',
      newline: '\r\n',
      encoding: 'utf-16le with mark',
      preamble: ['note;x'],
      headers: [['a', 'b']],
    },
    [
      { values: [1.25, -0.001], digits: 2 },
      { values: [-3, 4], digits: 0 },
    ],
  );
  expect([...bytes.slice(0, 2)]).toEqual([0xff, 0xfe]);
  expect(new TextDecoder('utf-16le').decode(bytes)).toBe('note;x\r\na;b\r\n1,25;-3\r\n0,00;4\r\n');
});
