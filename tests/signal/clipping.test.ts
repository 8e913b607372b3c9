import { describe, expect, it } from 'vitest';
import { summariseWaveform } from '../../src/signal/index.ts';
import { channel, clip, quantise, sum, tone, uniform, whiteNoise } from './signals.ts';

const clips = (values: Float64Array) => summariseWaveform([channel(values)], 48_000).channels[0]?.clipping;

interface Sine {
  values: Float64Array;
  seed: number;
}

/** Sines of random amplitude, phase and frequency, and at a random place between two whole numbers. */
function sines(count: number, length: number, amplitude: (share: number) => number, places = 1): Sine[] {
  return Array.from({ length: count }, (_, run) => {
    const next = uniform(run + 1);
    const frequency = (2 + 100 * next()) / length;
    const values = tone(length, {
      frequency,
      amplitudes: [amplitude(next())],
      phases: [2 * Math.PI * next()],
      dc: places * next(),
    });
    return { values, seed: run + 1 };
  });
}

const anyCodes = (share: number) => 3 + 125 * share;

describe('clipping is never reported of', () => {
  it('clean 8-bit sines, whose peaks repeat codes', () => {
    expect(sines(300, 2500, anyCodes).filter(({ values }) => clips(quantise(values, 1)))).toEqual([]);
  });

  it('8-bit sines with noise of up to a step', () => {
    const noisy = sines(300, 2500, anyCodes).map(({ values, seed }) =>
      quantise(sum(values, whiteNoise(2500, (seed % 10) / 10, seed)), 1),
    );
    expect(noisy.filter(clips)).toEqual([]);
  });

  it('8-bit sines of whole cycles, the same samples in every one', () => {
    const whole = Array.from({ length: 100 }, (_, i) =>
      quantise(
        tone(4800, { frequency: (2 + 3 * i) / 4800, amplitudes: [10 + i], phases: [i], dc: i / 7 }),
        1,
      ),
    );
    expect(whole.filter(clips)).toEqual([]);
  });

  it('slow 16-bit sines, which rest on their extreme codes for many samples', () => {
    const slow = Array.from({ length: 10 }, (_, i) =>
      quantise(
        tone(65_536, { frequency: (2 + 2 * i + 0.3) / 65_536, amplitudes: [32_000.4], phases: [i] }),
        1,
      ),
    );
    expect(slow.filter(clips)).toEqual([]);
  });

  it('sines without codes, clean or noisy, sampled four times a cycle or a thousand times', () => {
    const records = [4, 5, 8, 12, 48, 1000].flatMap((samples) => {
      const clean = tone(4800, { frequency: 1 / samples, amplitudes: [1], phases: [Math.PI / 4] });
      return [clean, sum(clean, whiteNoise(4800, 0.01, samples))];
    });
    expect(records.filter(clips)).toEqual([]);
  });

  it('tops that soft limiting rounds off: tanh at 7 % and at 17 % THD in 8 bits', () => {
    const soft = [1, 2].flatMap((gain) =>
      sines(30, 2500, () => gain, 0).map(({ values }) =>
        quantise(
          values.map((value) => 100 * Math.tanh(value)),
          1,
        ),
      ),
    );
    expect(soft.filter(clips)).toEqual([]);
  });
});

describe.each([0.95, 0.9, 0.8, 0.5, 0.1])('clipping at %f of the peak is always reported of', (limit) => {
  const records = Array.from({ length: 20 }, (_, run) => {
    const next = uniform(run + 99);
    const few = { frequency: (4.7 + next()) / 2500, amplitudes: [120], phases: [next()] };
    const many = { frequency: (99 + next()) / 4800, amplitudes: [120], phases: [next()] };
    return {
      few: clip(tone(2500, few), 120 * limit),
      many: clip(tone(4800, many), 120 * limit),
      seed: run + 1,
    };
  });

  it('sines without codes, with noise after the clipping or none', () => {
    expect(records.every(({ few, many }) => clips(few) && clips(many))).toBe(true);
    const noisy = records.map(({ many, seed }) => sum(many, whiteNoise(4800, 0.01, seed)));
    expect(noisy.every(clips)).toBe(true);
  });

  it('8-bit sines of a few and of many cycles, with noise of a third of a step or none', () => {
    expect(records.every(({ few, many }) => clips(quantise(few, 1)) && clips(quantise(many, 1)))).toBe(true);
    const noisy = records.map(({ few, seed }) => quantise(sum(few, whiteNoise(2500, 0.3, seed)), 1));
    expect(noisy.every(clips)).toBe(true);
  });

  it('sines that clip on one side only, either one', () => {
    const oneSided = tone(4800, { frequency: 99.3 / 4800, amplitudes: [1] });
    expect(clips(oneSided.map((value) => Math.min(value, limit)))).toBe(true);
    expect(clips(oneSided.map((value) => Math.max(value, -limit)))).toBe(true);
  });
});

describe('clipping by one per cent', () => {
  it('is reported where samples rest on one value', () => {
    expect(clips(clip(tone(4800, { frequency: 99.3 / 4800, amplitudes: [1] }), 0.99))).toBe(true);
  });

  it('is within one step of eight bits and cannot be told there', () => {
    expect(clips(quantise(clip(tone(2500, { frequency: 5.2 / 2500, amplitudes: [100] }), 99), 1))).toBe(
      false,
    );
  });
});
