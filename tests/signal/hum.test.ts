import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ChannelSummary, summariseWaveform, type WaveformOptions } from '../../src/signal/index.ts';
import { channel, pinkNoise, sum, tone, whiteNoise } from './signals.ts';

const rateHz = 48_000;

function summarise(values: Float64Array, options: WaveformOptions = {}) {
  const summary = summariseWaveform([channel(values)], rateHz, options);
  const [only] = summary.channels;
  if (!only) throw new Error('no channel');
  return { figures: only, rules: summary.warnings.map(({ rule }) => rule) };
}

/** Hum as rms values of the multiples, beginning with the first. */
const hum = (length: number, mainsHz: number, rms: readonly number[]) =>
  tone(length, {
    frequency: mainsHz / rateHz,
    amplitudes: rms.map((value) => value * Math.SQRT2),
    phases: rms.map((_, i) => i + 0.3),
  });

const signal = (length: number, hertz: number) =>
  tone(length, { frequency: hertz / rateHz, amplitudes: [1, 0.01, 0.003], phases: [0.2, 1, 2] });

const lineOf = ({ hum: found }: ChannelSummary, multiple: number) =>
  found?.lines.find((line) => line.multiple === multiple);

describe('hum beside a signal', () => {
  const length = 24_000;
  const levels = [3e-3, 8e-3, 1e-3, 2e-3];
  const { figures } = summarise(
    sum(signal(length, 1000.3), hum(length, 50.07, levels), whiteNoise(length, 1e-3, 4)),
  );

  it('has the level of every line, in an interval that holds it', () => {
    levels.forEach((level, i) => {
      const line = lineOf(figures, i + 1);
      expect(line?.detected).toBe(true);
      expect(line?.low ?? 1).toBeLessThan(level);
      expect(line?.high ?? 0).toBeGreaterThan(level);
      // Five standard deviations of a component, 5·σ/√N = 3.2e-5.
      expect(Math.abs((line?.rms ?? 0) - level)).toBeLessThan(3.2e-5);
    });
  });

  it('finds the mains where it is, not where it should be', () => {
    // A line of 8 mV in noise of 1 mV: u(f) = √6·σ·rate/(π·A·N^1.5) is 0.0006 Hz for the second multiple alone.
    expect(Math.abs((figures.hum?.mainsHz ?? 0) - 50.07)).toBeLessThan(0.002);
  });

  it('does not mark multiples that hold nothing', () => {
    expect([5, 6, 7, 8, 9, 10].map((multiple) => lineOf(figures, multiple)?.detected)).not.toContain(true);
  });

  it('sums the lines, and the interval holds the true sum', () => {
    const total = Math.hypot(...levels);
    expect(figures.hum?.low ?? 1).toBeLessThan(total);
    expect(figures.hum?.high ?? 0).toBeGreaterThan(total);
    expect((figures.hum?.rms ?? 0) / total).toBeCloseTo(1, 2);
  });

  it('is left out of the noise', () => {
    // White noise of 1 mV from 20 Hz to 20 kHz of 24 kHz; 4 standard errors of 10,000 lines are 2 %.
    const expected = 1e-3 * Math.sqrt(19_980 / 24_000);
    expect(Math.abs((figures.bandNoise?.unweighted.rms ?? 0) / expected - 1)).toBeLessThan(0.02);
    expect(figures.noiseRms).toBeGreaterThan(8e-3);
  });
});

describe('hum that is not there', () => {
  const { figures } = summarise(sum(signal(24_000, 1000.3), whiteNoise(24_000, 1e-3, 9)));

  it('is not told from noise: the interval of the sum begins at exactly 0', () => {
    expect(figures.hum?.low).toBe(0);
    expect(figures.hum?.lines.every(({ low, detected }) => low === 0 && !detected)).toBe(true);
  });

  it('is looked for at the nominal frequency', () => {
    expect(figures.hum?.mainsHz).toBe(50);
  });

  it('takes nothing off the noise, wherever it is looked for', () => {
    const at = (mainsHz: number) =>
      summarise(sum(signal(24_000, 1000.3), whiteNoise(24_000, 1e-3, 9)), { mainsHz }).figures;
    expect(at(60).hum?.lines.some(({ detected }) => detected)).toBe(false);
    expect(at(60).bandNoise).toEqual(at(50).bandNoise);
  });

  it('is claimed of few records of noise', () => {
    const claimed = Array.from({ length: 60 }, (_, seed) => {
      const { figures: noisy } = summarise(sum(signal(9600, 1000.3), whiteNoise(9600, 1e-3, 300 + seed)));
      return noisy.hum?.lines.some(({ detected }) => detected) ? 1 : 0;
    });
    // One record in twenty is allowed; more than nine of sixty would happen once in 700 runs of other seeds.
    expect(claimed.reduce<number>((total, one) => total + one, 0)).toBeLessThan(10);
  });
});

describe('the interval of hum in records of few cycles of the mains', () => {
  it.each([
    { name: 'white noise', noise: whiteNoise, sigma: 1e-3 },
    { name: 'noise that rises towards low frequencies', noise: pinkNoise, sigma: 2e-4 },
  ])('holds the true sum nineteen times in twenty in $name', ({ noise, sigma }) => {
    const truth = Math.hypot(1e-3, 1.7e-3);
    const held = Array.from({ length: 120 }, (_, seed) => {
      const values = sum(
        signal(4100, 1000.3),
        hum(4100, 50, [1e-3, 1.7e-3]),
        noise(4100, sigma, 7 * seed + 1),
      );
      const found = summarise(values).figures.hum;
      return found !== null && found.low <= truth && truth <= found.high;
    }).filter(Boolean).length;
    // Of 120 at 95 %, fewer than 105 would happen once in a thousand.
    expect(held).toBeGreaterThanOrEqual(105);
  });
});

describe('the mains of 60 Hz', () => {
  it('is looked for where it is declared', () => {
    const values = sum(signal(24_000, 1000.3), hum(24_000, 60, [2e-3, 4e-3]), whiteNoise(24_000, 1e-4, 5));
    const { figures } = summarise(values, { mainsHz: 60 });
    expect(lineOf(figures, 2)?.frequencyHz).toBeCloseTo(120, 1);
    // Five standard deviations of a component: 3.2e-6.
    expect(Math.abs((lineOf(figures, 2)?.rms ?? 0) - 4e-3)).toBeLessThan(3.2e-6);
  });
});

describe('multiples that stand on harmonics', () => {
  const length = 24_000;
  const values = sum(signal(length, 150), hum(length, 50, [3e-3, 5e-3]), whiteNoise(length, 1e-4, 3));
  const { figures, rules } = summarise(values);

  it('are left to the harmonic, which is named', () => {
    expect(lineOf(figures, 3)).toMatchObject({ rms: null, detected: false, harmonic: 1 });
    expect(lineOf(figures, 6)?.harmonic).toBe(2);
    expect(lineOf(figures, 2)?.harmonic).toBeNull();
  });

  it('and the sum is that of the others', () => {
    expect((figures.hum?.rms ?? 0) / Math.hypot(3e-3, 5e-3)).toBeCloseTo(1, 2);
  });

  it('and the fundamental’s place is warned of', () => {
    expect(rules).toContain('fundamental-at-mains');
  });

  it('are a reason for no figure when there are no others', () => {
    const { figures: all } = summarise(sum(signal(length, 50), whiteNoise(length, 1e-4, 3)));
    expect(all.hum).toBeNull();
    expect(all.withheld.find(({ figure }) => figure === 'hum')?.reason).toContain('left to it');
  });
});

describe('a line one and a half cycles per record from a harmonic', () => {
  it('is told from it without leaking into it', () => {
    const length = 9600;
    // One cycle per record is 5 Hz; the second harmonic stands at 107.5 Hz, hum at 100 Hz.
    const values = sum(signal(length, 53.75), hum(length, 50, [0, 4e-3]), whiteNoise(length, 1e-5, 8));
    const { figures } = summarise(values, { harmonics: 4 });
    // The mains is 0.75 cycles from the fundamental and left to it; the second multiple stands alone.
    expect(lineOf(figures, 1)?.harmonic).toBe(1);
    expect(Math.abs((lineOf(figures, 2)?.rms ?? 0) / 4e-3 - 1)).toBeLessThan(0.01);
  });
});

describe('records too short for the mains', () => {
  it('have no hum and say how long it would take', () => {
    const { figures } = summarise(sum(signal(1800, 1000.3), whiteNoise(1800, 1e-3, 2)));
    expect(figures.hum).toBeNull();
    expect(figures.withheld.find(({ figure }) => figure === 'hum')?.reason).toContain('80\u00a0ms');
    expect(figures.bandNoise).not.toBeNull();
  });
});

describe('a record without a fundamental', () => {
  it('still has its noise and its hum', () => {
    const values = sum(whiteNoise(24_000, 1e-3, 7), hum(24_000, 50, [4e-5]));
    const { figures } = summarise(values);
    expect(figures.fundamental).toBeNull();
    // Two standard errors of the noise in 10,000 lines are 1 %.
    expect(Math.abs((figures.bandNoise?.unweighted.rms ?? 0) / (1e-3 * Math.sqrt(0.8325)) - 1)).toBeLessThan(
      0.02,
    );
    expect(figures.hum?.lines).toHaveLength(10);
  });
});

describe('hum and noise keep what they must', () => {
  const wave = fc.record({
    cycles: fc.double({ min: 15.2, max: 90, noNaN: true }),
    level: fc.double({ min: 1e-3, max: 1e-2, noNaN: true }),
    seed: fc.integer({ min: 1, max: 1e6 }),
  });
  const length = 4800;
  const samples = ({ cycles, level, seed }: { cycles: number; level: number; seed: number }) =>
    sum(
      tone(length, { frequency: cycles / length, amplitudes: [1, 0.02], phases: [1, 2] }),
      hum(length, 50, [level, level / 2]),
      whiteNoise(length, 1e-3, seed),
    );
  const numbers = ({ hum: lines, bandNoise: noise }: ChannelSummary) =>
    [lines, noise?.unweighted, noise?.aWeighted, noise?.itu468].flatMap((entry) =>
      entry ? [entry.rms, entry.low, entry.high] : [],
    );
  const expectClose = (found: number[], expected: number[]) => {
    expect(found).toHaveLength(expected.length);
    // Arithmetic of the fits, re noise of 1e-3.
    found.forEach((value, i) => {
      expect(Math.abs(value - (expected[i] ?? 0))).toBeLessThan(1e-8);
    });
  };

  it('scaling scales them', () => {
    fc.assert(
      fc.property(wave, fc.constantFrom(1e-6, 0.3, 4, 1e5), (made, factor) => {
        const values = samples(made);
        const scaled = numbers(summarise(values.map((value) => value * factor)).figures);
        expectClose(
          scaled.map((value) => value / factor),
          numbers(summarise(values).figures),
        );
      }),
      { numRuns: 25, seed: 1 },
    );
  });

  it('turning the record over and adding a constant change nothing', () => {
    fc.assert(
      fc.property(wave, fc.double({ min: -3, max: 3, noNaN: true }), (made, constant) => {
        const values = samples(made);
        const changed = summarise(values.map((value) => constant - value));
        expectClose(numbers(changed.figures), numbers(summarise(values).figures));
      }),
      { numRuns: 25, seed: 2 },
    );
  });

  it('turning time round changes nothing', () => {
    fc.assert(
      fc.property(wave, (made) => {
        const values = samples(made);
        expectClose(numbers(summarise(values.toReversed()).figures), numbers(summarise(values).figures));
      }),
      { numRuns: 25, seed: 3 },
    );
  });
});
