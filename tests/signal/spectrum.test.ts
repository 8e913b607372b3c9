import { describe, expect, it } from 'vitest';
import { amplitudeSpectrum, windowNames } from '../../src/signal/index.ts';
import { channel, pinkNoise, sum, tone, whiteNoise } from './signals.ts';

/** Line nearest to a frequency. */
function lineAt(frequencyHz: Float64Array, wanted: number): number {
  return frequencyHz.reduce(
    (best, f, line) => (Math.abs(f - wanted) < Math.abs((frequencyHz[best] ?? 0) - wanted) ? line : best),
    0,
  );
}

describe.each(windowNames)('amplitudeSpectrum with the %s window', (window) => {
  it('reads 1 V rms in the line of a sine of 1 V rms', () => {
    // 512 cycles in 4096 samples: a line of the transform.
    const values = tone(4096, { frequency: 0.125, amplitudes: [Math.SQRT2] });
    const spectrum = amplitudeSpectrum(channel(values), 48_000, { window });
    const line = lineAt(spectrum.frequencyHz, 6000);
    expect(spectrum.frequencyHz[line]).toBe(6000);
    // Rounding, and side lobes of the image 1024 lines away: below 1e-4 of a rectangular window, which has the largest.
    expect(spectrum.rms[line]).toBeCloseTo(1, window === 'rectangular' ? 3 : 9);
    expect(spectrum.window).toBe(window);
  });
});

describe('amplitudeSpectrum', () => {
  it('has lines from zero to half the rate for any length, half a cycle per record apart or less', () => {
    [100, 1000, 2500, 4096, 5000].forEach((length) => {
      const { frequencyHz, rms, floorRms } = amplitudeSpectrum(channel(whiteNoise(length, 1, 1)), 48_000);
      expect(frequencyHz[0]).toBe(0);
      expect(frequencyHz.at(-1)).toBe(24_000);
      expect(frequencyHz[1]).toBeLessThanOrEqual(24_000 / length);
      expect([rms.length, floorRms.length]).toEqual([frequencyHz.length, frequencyHz.length]);
    });
  });

  it('loses no more than a fifth of a decibel between two lines', () => {
    Array.from({ length: 20 }, (_, i) => (200 + i / 20) / 4096).forEach((frequency) => {
      const values = tone(4096, { frequency, amplitudes: [Math.SQRT2] });
      const { rms, scallopingDb } = amplitudeSpectrum(channel(values), 48_000);
      const largest = 20 * Math.log10(Math.max(...rms));
      expect(largest).toBeLessThan(0.001);
      // A quarter of a bin off: 0.206 dB for this window.
      expect(largest).toBeGreaterThan(-0.21);
      // What the spectrum says of itself, in the limit of long records: within 1e-4 dB here.
      expect(-largest).toBeLessThan(scallopingDb + 1e-4);
      expect(scallopingDb).toBeCloseTo(0.206, 3);
    });
  });

  it('states its equivalent noise bandwidth: white noise of density S reads √(S·ENBW) in a line', () => {
    const [length, rateHz, sigma] = [65_536, 48_000, 0.1];
    const { rms, enbwHz } = amplitudeSpectrum(channel(whiteNoise(length, sigma, 7)), rateHz);
    const meanSquare = rms.reduce((sum, value) => sum + value * value, 0) / rms.length;
    const density = (sigma * sigma) / (rateHz / 2);
    // 65536 values know their mean square to 0.6 %.
    expect(meanSquare / (density * enbwHz)).toBeCloseTo(1, 1);
    expect(Math.abs(meanSquare / (density * enbwHz) - 1)).toBeLessThan(0.02);
  });

  it('has a floor at the level of the noise, under harmonics as between them', () => {
    const [length, rateHz, sigma] = [2500, 500_000, 0.01];
    const values = sum(
      tone(length, { frequency: 5.2 / length, amplitudes: [1, 0.1, 0.05] }),
      whiteNoise(length, sigma, 3),
    );
    const { floorRms, enbwHz } = amplitudeSpectrum(channel(values), rateHz);
    const expected = Math.sqrt(((sigma * sigma) / (rateHz / 2)) * enbwHz);
    const logMean = floorRms.reduce((sum, value) => sum + Math.log(value / expected), 0) / floorRms.length;
    expect(Math.abs(logMean)).toBeLessThan(0.05);
    // Single stretches are medians of eight lines at least: within a factor of two of the level.
    expect(Math.max(...floorRms) / expected).toBeLessThan(2);
    expect(Math.min(...floorRms) / expected).toBeGreaterThan(0.5);
  });

  it('has a floor that follows 1/f noise', () => {
    const length = 16_384;
    const values = sum(
      tone(length, { frequency: 0.0123, amplitudes: [1, 0.01] }),
      pinkNoise(length, 0.003, 3),
    );
    const { frequencyHz, floorRms } = amplitudeSpectrum(channel(values), length);
    const at = (frequency: number) => floorRms[lineAt(frequencyHz, frequency)] ?? 0;
    // 1/f in power: a factor of √10 for each decade; the noise is made of steps of three, and medians scatter.
    expect(at(40) / at(400)).toBeGreaterThan(2);
    expect(at(40) / at(400)).toBeLessThan(5);
  });

  it('reads the level of a constant record as zero everywhere, and of a record without a line as its noise', () => {
    const flat = amplitudeSpectrum(channel(new Float64Array(1000).fill(3)), 48_000);
    expect(Math.max(...flat.rms, ...flat.floorRms)).toBe(0);
    const { rms, floorRms } = amplitudeSpectrum(channel(whiteNoise(4096, 1, 1)), 48_000);
    const ratio = Math.hypot(...rms) / Math.hypot(...floorRms);
    // The floor's squares are the mean squares of the lines, up to the scatter of medians.
    expect(Math.abs(ratio - 1)).toBeLessThan(0.1);
  });

  it('has no lines for samples that cannot be used', () => {
    const unusable = [
      amplitudeSpectrum(channel(new Float64Array()), 48_000),
      amplitudeSpectrum(channel(Float64Array.of(1, 2, 3, Number.NaN, 5)), 48_000),
      amplitudeSpectrum(channel(whiteNoise(100, 1, 1)), 0),
    ];
    unusable.forEach(({ frequencyHz, rms, floorRms }) => {
      expect([frequencyHz.length, rms.length, floorRms.length]).toEqual([0, 0, 0]);
    });
  });
});
