import { describe, expect, it } from 'vitest';
import { aWeight, noiseDensity, summariseWaveform } from '../../src/signal/index.ts';
import { check } from './checks.ts';
import { channel, quantise, redNoise, sum, tone, whiteNoise } from './signals.ts';

const rateHz = 48_000;

function noiseOf(values: Float64Array, options = {}) {
  const [summary] = summariseWaveform([channel(values)], rateHz, options).channels;
  if (!summary?.bandNoise) throw new Error('no noise');
  return { ...summary, noise: summary.bandNoise };
}

const within = (values: Float64Array, low: number, high: number) => values.subarray(low, high);
const meanSquare = (values: Float64Array) =>
  values.reduce((all, value) => all + value * value, 0) / values.length;
const median = (values: Float64Array) => values.toSorted()[values.length >> 1] ?? Number.NaN;

describe('noise in a band', () => {
  it('of white noise is its share of the whole, with the weighting’s share of that', () => {
    const { noise } = noiseOf(whiteNoise(131_072, 0.2, 6));
    // 54,000 lines: one standard error of an rms value is 0.2 %, of the weighted one 0.4 %.
    expect(Math.abs(noise.unweighted.rms / (0.2 * Math.sqrt(19_980 / 24_000)) - 1)).toBeLessThan(0.01);
    const weighted = 20 * Math.log10(noise.aWeighted.rms / noise.unweighted.rms);
    expect(Math.abs(weighted - check('noise', 'white-noise-a-weighted-db'))).toBeLessThan(0.06);
  });

  it('is the same with and without a signal of ten harmonics in few cycles', () => {
    // Ten lines of a record of some forty would otherwise take a quarter of the noise away with them.
    const ratios = Array.from({ length: 60 }, (_, seed) => {
      const white = whiteNoise(480, 1e-3, seed + 1);
      const pure = tone(480, { frequency: 0.0415, amplitudes: [1, 0.02, 0.01] });
      const { noise } = noiseOf(sum(pure, white), { bandHz: [100, 20_000] });
      return noise.unweighted.rms ** 2 / (1e-6 * (19_900 / 24_000));
    });
    const mean = ratios.reduce((all, ratio) => all + ratio, 0) / ratios.length;
    // 60 records of 199 lines: one standard error is 0.9 %.
    expect(Math.abs(mean - 1)).toBeLessThan(0.03);
  });

  it('has an interval that holds the truth in 95 % of records', () => {
    const truth = 1e-3 * Math.sqrt(19_980 / 24_000);
    const held = Array.from({ length: 200 }, (_, seed) => {
      const { noise } = noiseOf(
        sum(tone(4800, { frequency: 0.0208, amplitudes: [1] }), whiteNoise(4800, 1e-3, seed)),
      );
      return noise.unweighted.low <= truth && truth <= noise.unweighted.high;
    }).filter(Boolean).length;
    // Of 200 at 95 %, fewer than 180 would happen once in a thousand.
    expect(held).toBeGreaterThanOrEqual(180);
  });

  it('weighted by A, leaves low frequencies out', () => {
    const pole = 0.998;
    const { noise } = noiseOf(redNoise(262_144, 1, pole, 5));
    const density = (hertz: number) =>
      1 / (1 + pole * pole - 2 * pole * Math.cos((2 * Math.PI * hertz) / rateHz));
    const places = Array.from({ length: 19_980 }, (_, i) => 20.5 + i);
    const total = (weight: (hertz: number) => number) =>
      places.reduce((all, hertz) => all + density(hertz) * weight(hertz), 0);
    const expected = Math.sqrt(total(aWeight) / total(() => 1));
    // The power below 100 Hz is that of some 400 lines: 4 standard errors of its rms are 10 %.
    expect(Math.abs(noise.aWeighted.rms / noise.unweighted.rms / expected - 1)).toBeLessThan(0.1);
    expect(expected).toBeLessThan(0.3);
  });
});

describe('signal-to-noise ratio', () => {
  const values = sum(
    tone(48_000, { frequency: 0.0208, amplitudes: [Math.SQRT2] }),
    whiteNoise(48_000, 1e-3, 2),
  );

  it('is that of the fundamental where nothing is rated', () => {
    const { signalToNoise, noise } = noiseOf(values);
    expect(signalToNoise?.reference).toBe('fundamental');
    // 1 V rms over the measured noise.
    expect(signalToNoise?.db).toBeCloseTo(-20 * Math.log10(noise.unweighted.rms), 3);
  });

  it('is that of the rated output where one is stated', () => {
    const { signalToNoise, noise } = noiseOf(values, { rated: { powerW: 3, loadOhm: 8 } });
    expect(signalToNoise?.reference).toBe('rated output');
    expect(signalToNoise?.referenceRms).toBeCloseTo(Math.sqrt(24), 12);
    expect(signalToNoise?.aWeightedDb).toBeCloseTo(20 * Math.log10(Math.sqrt(24) / noise.aWeighted.rms), 9);
  });

  it('exists for the noise of an idle amplifier only if something is rated', () => {
    const idle = whiteNoise(24_000, 1e-3, 8);
    expect(noiseOf(idle).signalToNoise).toBeNull();
    const reason = noiseOf(idle).withheld.find(({ figure }) => figure === 'signalToNoise')?.reason;
    expect(reason).toContain('rated output');
    expect(noiseOf(idle, { rated: { powerW: 3, loadOhm: 8 } }).signalToNoise?.db).toBeGreaterThan(70);
  });
});

describe('noise density', () => {
  it('of white noise of σ is σ·√(2/rate) at every line', () => {
    const found = noiseDensity(channel(whiteNoise(262_144, 0.1, 3)), rateHz);
    if (!found) throw new Error('no density');
    const expected = 0.1 * Math.sqrt(2 / rateHz);
    // Mean over 32,000 lines of at least seven averages: one standard error is 0.2 %.
    expect(Math.abs(Math.sqrt(meanSquare(found.density)) / expected - 1)).toBeLessThan(0.01);
    expect(found.averages).toBeGreaterThanOrEqual(7);
  });

  it('over all lines adds up to the mean square of the record', () => {
    const values = whiteNoise(65_536, 0.1, 4);
    const found = noiseDensity(channel(values), rateHz);
    if (!found) throw new Error('no density');
    const width = rateHz / found.segment;
    const total = found.density.reduce((all, value) => all + value * value * width, 0);
    // Parseval; the segments weigh the record's ends less, and the lines at zero and at half the rate are left out.
    expect(Math.abs(total / meanSquare(values) - 1)).toBeLessThan(0.02);
  });

  it('reads the noise of rounding between two strong tones', () => {
    const rate = 10_000;
    const made = sum(
      tone(131_072, { frequency: 1234 / rate, amplitudes: [2 * Math.SQRT2] }),
      tone(131_072, { frequency: 2500.2157 / rate, amplitudes: [Math.SQRT2] }),
    );
    const found = noiseDensity(channel(quantise(made, 1e-3)), rate);
    if (!found) throw new Error('no density');
    // Set-up from memory of Heinzel, Rüdiger and Schilling's self-test; the median of an average of seven or more lies
    // a few per cent below its mean.
    const far = within(found.density, Math.floor(found.density.length * 0.6), found.density.length);
    expect(Math.abs(median(far) / check('noise', 'rounding-noise-density') - 1)).toBeLessThan(0.08);
  });

  it('leaves constant, fundamental and harmonics out, and hum in', () => {
    const clean = sum(
      tone(65_536, { frequency: 0.0208, amplitudes: [1, 0.1, 0.05], dc: 3 }),
      tone(65_536, { frequency: 100 / rateHz, amplitudes: [0.01 * Math.SQRT2] }),
      whiteNoise(65_536, 1e-4, 5),
    );
    const found = noiseDensity(channel(clean), rateHz);
    if (!found) throw new Error('no density');
    const at = (hertz: number) => found.density[Math.round((hertz * found.segment) / rateHz) - 1] ?? 0;
    const white = 1e-4 * Math.sqrt(2 / rateHz);
    // Hum of 14 mV peak leaks into the fit of a line 1200 cycles away by 14 mV/(π·1200), some 4 µV: five times the noise.
    expect(at(0.0208 * rateHz)).toBeLessThan(6 * white);
    expect(at(0.0416 * rateHz)).toBeLessThan(6 * white);
    // A line of 10 mV spread over 1.5 lines of the window.
    expect(at(100)).toBeGreaterThan((0.5 * 0.01) / Math.sqrt(found.enbwHz));
  });

  it('scales with the record', () => {
    const values = whiteNoise(4096, 1, 9);
    const [plain, scaled] = [values, values.map((value) => value * 1e-5)].map((record) =>
      noiseDensity(channel(record), rateHz),
    );
    scaled?.density.forEach((value, i) => {
      // Rounding of the samples.
      expect(value / (1e-5 * (plain?.density[i] ?? 0))).toBeCloseTo(1, 9);
    });
  });

  it.each([
    ['too few samples', new Float64Array(255).fill(1), rateHz],
    ['a sample that is no number', whiteNoise(4096, 1, 1).with(3, Number.NaN), rateHz],
    ['no rate', whiteNoise(4096, 1, 1), 0],
  ])('does not exist for %s', (_, values, rate) => {
    expect(noiseDensity(channel(values), rate)).toBeNull();
  });

  it('of a constant record is zero and not NaN', () => {
    const found = noiseDensity(channel(new Float64Array(4096).fill(2)), rateHz);
    expect(found?.density.every((value) => value === 0)).toBe(true);
  });
});
