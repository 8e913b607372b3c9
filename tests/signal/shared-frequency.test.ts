import { describe, expect, it } from 'vitest';
import { type Channel, summariseWaveform } from '../../src/signal/index.ts';
import { channel, sum, tone, whiteNoise } from './signals.ts';

const rateHz = 48_000;
const length = 10_000;

const sine = (hertz: number, amplitudes: readonly number[], seed: number) =>
  sum(tone(length, { frequency: hertz / rateHz, amplitudes }), whiteNoise(length, 1e-3, seed));

const stimulus = channel(sine(997.3, [0.3], 1), 'stimulus');

function lastOf(channels: readonly Channel[]) {
  const summary = summariseWaveform(channels, rateHz).channels.at(-1);
  if (!summary?.fundamental) throw new Error('no fundamental');
  return { ...summary, fundamental: summary.fundamental };
}

describe('a channel beside another whose fundamental is known', () => {
  it('has the figures that it has alone', () => {
    const response = channel(sine(997.3, [2, 0.02, 0.01], 2), 'response');
    const [alone, beside] = [lastOf([response]), lastOf([stimulus, response])];
    // The fit rests to 1e-5 rad over the record from wherever it began: second-order errors of 1e-10.
    expect(beside.fundamental.frequencyHz / alone.fundamental.frequencyHz).toBeCloseTo(1, 12);
    expect(beside.fundamental.rms / alone.fundamental.rms).toBeCloseTo(1, 9);
    expect((beside.thd?.ratio ?? 0) / (alone.thd?.ratio ?? 1)).toBeCloseTo(1, 7);
    expect((beside.noiseRms ?? 0) / (alone.noiseRms ?? 1)).toBeCloseTo(1, 9);
  });

  it.each([
    { name: 'above it', hertz: 2713.1 },
    { name: 'at its third harmonic', hertz: 3 * 997.3 },
    { name: 'below it', hertz: 411.7 },
  ])('has a fundamental of its own where its strongest line stands $name', ({ hertz }) => {
    const other = sum(sine(hertz, [1], 3), tone(length, { frequency: 997.3 / rateHz, amplitudes: [0.5] }));
    // A line of half its level a hundred cycles away moves it by some thousandths of a cycle per record, 4.8 Hz.
    expect(
      Math.abs(lastOf([stimulus, channel(other, 'other')]).fundamental.frequencyHz - hertz),
    ).toBeLessThan(0.05);
  });

  it('is searched where the known frequency holds nothing', () => {
    const found = lastOf([stimulus, channel(sine(5012.9, [1, 0.01], 4), 'other')]);
    // Far above the standard deviation of 1 mV noise over 10,000 rows, √6·σ·rate/(π·N^1.5).
    expect(Math.abs(found.fundamental.frequencyHz - 5012.9)).toBeLessThan(1e-3);
  });
});
