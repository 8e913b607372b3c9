import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { summariseWaveform } from '../../src/signal/index.ts';
import { rmaWeight, shorterWeight } from '../../src/signal/record/perceptual-weighting.ts';
import { check } from './checks.ts';
import { channel, sum, tone, whiteNoise } from './signals.ts';

const length = 8192;

function figuresOf(amplitudes: readonly number[], sigma = 0, seed = 1) {
  const values = sum(tone(length, { frequency: 47.3 / length, amplitudes }), whiteNoise(length, sigma, seed));
  const [only] = summariseWaveform([channel(values)], 48_000).channels;
  if (!only?.weightedDistortion || !only.thd) throw new Error('no harmonics');
  return { thd: only.thd, ...only.weightedDistortion };
}

describe('weighted sums of harmonics', () => {
  // Weights of 1937 and the bibliography of 1950 are from memory.
  it('are those of the worked example', () => {
    const { thd, rma1937, shorter1950 } = figuresOf([1, 0.01, 0.005, 0.002, 0.001]);
    // Per cent of a pure record: rounding only.
    expect(100 * thd.ratio).toBeCloseTo(check('two-tone', 'weighted example: unweighted'), 9);
    expect(100 * rma1937.ratio).toBeCloseTo(check('two-tone', 'weighted example: n/2'), 9);
    expect(100 * shorter1950.ratio).toBeCloseTo(check('two-tone', 'weighted example: n²/4'), 9);
  });

  it('leave a second harmonic as it is', () => {
    expect([rmaWeight(2), shorterWeight(2)]).toEqual([1, 1]);
  });

  it('are never less than THD, and the steeper weight never less than the gentler', () => {
    const ratios = fc.array(fc.double({ min: 0, max: 0.05, noNaN: true }), { minLength: 9, maxLength: 9 });
    fc.assert(
      fc.property(ratios, (harmonics) => {
        const { thd, rma1937, shorter1950 } = figuresOf([1, ...harmonics]);
        expect(rma1937.ratio).toBeGreaterThanOrEqual(thd.ratio);
        expect(shorter1950.ratio).toBeGreaterThanOrEqual(rma1937.ratio);
      }),
      { numRuns: 30 },
    );
  });

  it.each(['rma1937', 'shorter1950'] as const)('hold the truth of %s in 95 % of noisy records', (name) => {
    const harmonics = [0.01, 0.005, 0.002, 0.001];
    const weight = name === 'rma1937' ? rmaWeight : shorterWeight;
    const truth = Math.hypot(...harmonics.map((ratio, i) => weight(i + 2) * ratio));
    const inside = Array.from({ length: 200 }, (_, seed) => figuresOf([1, ...harmonics], 0.02, seed)).filter(
      ({ [name]: { low, high } }) => low <= truth && truth <= high,
    );
    // Three standard deviations of the share of 200 records.
    expect(inside.length / 200).toBeGreaterThanOrEqual(0.904);
  });

  it('reach zero on noise alone', () => {
    const { rma1937, shorter1950 } = figuresOf([1], 0.01, 12);
    expect([rma1937.low, shorter1950.low]).toEqual([0, 0]);
  });
});
