import { describe, expect, it } from 'vitest';
import { summariseWaveform, type WaveformOptions } from '../../src/signal/index.ts';
import { channel, clip, sum, tone, whiteNoise } from './signals.ts';

const length = 4096;
const rateHz = 48_000;

function summarise(values: Float64Array, options: WaveformOptions = {}, rate = rateHz) {
  const { channels, warnings } = summariseWaveform([channel(values)], rate, options);
  const [figures] = channels;
  if (!figures) throw new Error('no channel');
  return { figures, warnings, rules: warnings.map(({ rule }) => rule) };
}

const reasonFor = ({ withheld }: { withheld: { figure: string; reason: string }[] }, figure: string) =>
  withheld.find((entry) => entry.figure === figure)?.reason;

describe('crest factor', () => {
  it.each([
    ['a sine', tone(length, { frequency: 0.01234, amplitudes: [1] }), Math.SQRT2],
    ['a square wave', Float64Array.from({ length }, (_, n) => (n % 64 < 32 ? 1 : -1)), 1],
    ['a triangle', Float64Array.from({ length }, (_, n) => 1 - Math.abs((n % 64) - 32) / 16), Math.sqrt(3)],
  ])('of %s', (_, values, expected) => {
    // Samples may miss the very peak, by 1 − cos(π·0.01234/2) here; a triangle of 64 samples has 0.05 % of its own.
    expect(Math.abs((summarise(values).figures.crestFactor ?? 0) / expected - 1)).toBeLessThan(1e-3);
  });

  it.each([
    ['times a factor', (value: number) => 7 * value],
    ['turned over', (value: number) => -value],
    ['with a constant', (value: number) => value + 0.5],
  ])('is the same %s', (_, change) => {
    const values = sum(
      tone(length, { frequency: 0.0123, amplitudes: [1, 0.2] }),
      whiteNoise(length, 0.01, 1),
    );
    // The arithmetic of the fit.
    expect(summarise(values.map(change)).figures.crestFactor).toBeCloseTo(
      summarise(values).figures.crestFactor ?? 0,
      9,
    );
  });

  it('does not exist for a constant record', () => {
    const { figures } = summarise(new Float64Array(length).fill(3));
    expect(figures.crestFactor).toBeNull();
    expect(reasonFor(figures, 'crestFactor')).toContain('does not vary');
  });
});

describe('even and odd sums', () => {
  const values = sum(
    tone(length, { frequency: 0.0123, amplitudes: [1, 0.03, 0.02, 0.004, 0.01] }),
    whiteNoise(length, 1e-3, 4),
  );
  const { figures } = summarise(values);

  it('hold the true sums in their intervals', () => {
    const [even, odd] = [Math.hypot(0.03, 0.004), Math.hypot(0.02, 0.01)];
    expect(figures.evenHarmonics?.low).toBeLessThan(even);
    expect(figures.evenHarmonics?.high).toBeGreaterThan(even);
    expect(figures.oddHarmonics?.low).toBeLessThan(odd);
    expect(figures.oddHarmonics?.high).toBeGreaterThan(odd);
  });

  it('count every order of theirs, and together they are THD', () => {
    expect(figures.evenHarmonics?.orders).toEqual([2, 4, 6, 8, 10]);
    expect(figures.oddHarmonics?.orders).toEqual([3, 5, 7, 9]);
    // The same squares in another order.
    expect(Math.hypot(figures.evenHarmonics?.ratio ?? 0, figures.oddHarmonics?.ratio ?? 0)).toBeCloseTo(
      figures.thd?.ratio ?? 0,
      12,
    );
  });

  it('of a symmetrically clipped sine are odd, and the even sum reaches zero', () => {
    const clipped = clip(tone(length, { frequency: 0.0123, amplitudes: [1] }), 0.8);
    const { figures: found } = summarise(sum(clipped, whiteNoise(length, 1e-3, 2)));
    expect(found.evenHarmonics?.low).toBe(0);
    expect(found.oddHarmonics?.low).toBeGreaterThan(0.05);
  });

  it('say which of them has no order below half the sampling rate', () => {
    const { figures: high } = summarise(tone(length, { frequency: 0.2, amplitudes: [1] }), {
      bandwidthHz: 20_000,
    });
    expect(high.evenHarmonics?.orders).toEqual([2]);
    expect(high.oddHarmonics).toBeNull();
    expect(reasonFor(high, 'oddHarmonics')).toContain('No odd harmonic');
  });
});

describe('output power', () => {
  const values = tone(48_000, { frequency: 1000 / rateHz, amplitudes: [4, 0.4], dc: 1 });

  it('is that of the fundamental, and of everything but the direct part', () => {
    const { figures } = summarise(values, { loadOhm: 8 });
    // A²/(2R): 1 W, and 1 % more with the harmonic.
    expect(figures.outputPower?.fundamentalW).toBeCloseTo(1, 9);
    expect(figures.outputPower?.totalW).toBeCloseTo(1.01, 9);
  });

  it('of a current is I²·R', () => {
    const { channels } = summariseWaveform([{ name: 'i', role: 'response', unit: 'A', values }], rateHz, {
      loadOhm: 8,
    });
    expect(channels[0]?.outputPower?.fundamentalW).toBeCloseTo(64, 9);
  });

  it('has four times the value for twice the record, and the same upside down', () => {
    const power = (factor: number) =>
      summarise(
        values.map((value) => factor * value),
        { loadOhm: 8 },
      ).figures.outputPower?.totalW ?? 0;
    expect(power(2) / power(1)).toBeCloseTo(4, 9);
    expect(power(-1) / power(1)).toBeCloseTo(1, 9);
  });

  it('needs a load, a response, and volts or amperes', () => {
    expect(reasonFor(summarise(values).figures, 'outputPower')).toContain('No load');
    const { channels } = summariseWaveform(
      [
        { name: 'in', role: 'stimulus', unit: 'V', values },
        { name: 'x', role: 'response', unit: '1', values },
      ],
      rateHz,
      { loadOhm: 8 },
    );
    expect(channels.map((figures) => reasonFor(figures, 'outputPower'))).toEqual([
      expect.stringContaining('belongs to responses'),
      expect.stringContaining('plain numbers'),
    ]);
  });
});

describe('orders that fold', () => {
  // Eight samples a cycle: the fifth folds onto the third, the sixth onto the second, the seventh onto the fundamental.
  const coherent = sum(
    tone(length, { frequency: 1 / 8, amplitudes: [1, 0.001, 0.002, 0, 0.03] }),
    whiteNoise(length, 1e-4, 3),
  );
  const { figures, warnings, rules } = summarise(coherent);

  it('onto a harmonic are named at it, and the sums are withheld', () => {
    expect(figures.harmonics.map(({ order, foldedOrders }) => [order, foldedOrders])).toEqual([
      [2, [6, 10]],
      [3, [5]],
    ]);
    expect([figures.thd, figures.evenHarmonics, figures.oddHarmonics]).toEqual([null, null, null]);
    expect(reasonFor(figures, 'thd')).toContain('orders 2 and 3');
  });

  it('are warned of with what they may have done to the fundamental', () => {
    const found = warnings.find(({ rule }) => rule === 'orders-fold-onto-lines');
    expect(found?.message).toContain('orders 5, 6, 7, 8, 9 and 10');
    expect(found?.message).toContain('the direct part and orders 1, 2 and 3');
    expect(found?.message).toContain('the fundamental may be off');
  });

  it('elsewhere in the band are mentioned with the place, and nothing is withheld', () => {
    const apart = summarise(
      sum(tone(length, { frequency: 0.1317, amplitudes: [1, 0.01, 0.002] }), whiteNoise(length, 1e-4, 3)),
    );
    expect(apart.figures.thd).not.toBeNull();
    expect(apart.rules).toContain('orders-fold-into-band');
    expect(apart.rules).not.toContain('orders-fold-onto-lines');
  });

  it('are no matter to an instrument whose band ends below half the rate', () => {
    const filtered = summarise(coherent, { bandwidthHz: 20_000 });
    expect(filtered.figures.thd).not.toBeNull();
    expect(filtered.rules.filter((rule) => rule.startsWith('orders-fold'))).toEqual([]);
    expect(summarise(coherent, { bandwidthHz: 80_000 }).figures.thd).toBeNull();
  });

  it('are not spoken of where all orders lie below half the rate', () => {
    const low = summarise(
      sum(tone(length, { frequency: 0.02, amplitudes: [1] }), whiteNoise(length, 1e-4, 3)),
    );
    expect(low.rules.filter((rule) => rule.startsWith('orders-fold'))).toEqual([]);
    expect(rules).toContain('orders-left-out');
  });
});

describe('records that carry more than a sine', () => {
  const sine = tone(length, { frequency: 0.0213, amplitudes: [1] });
  const noise = whiteNoise(length, 0.01, 2);
  const ramp = (rise: number) => Float64Array.from({ length }, (_, n) => (rise * n) / length);

  it('a drifting direct part is said, with its rise', () => {
    const { rules, warnings } = summarise(sum(sine, noise, ramp(0.5)));
    expect(rules).toContain('baseline-drift');
    expect(warnings.find(({ rule }) => rule === 'baseline-drift')?.message).toContain('500\u00a0mV');
  });

  it.each([
    ['a drift that noise hides', sum(sine, noise, ramp(0.01))],
    ['a drift below a twentieth of the peak', sum(sine, ramp(0.04))],
    ['no drift', sum(sine, noise)],
  ])('%s is not', (_, values) => {
    expect(summarise(values).rules).not.toContain('baseline-drift');
  });

  it('a direct part above the fundamental’s peak is said, a smaller one is not', () => {
    const with12 = summarise(sum(sine, noise).map((value) => value + 12));
    expect(with12.rules).toContain('large-direct-part');
    expect(with12.figures.fundamental?.rms).toBeCloseTo(Math.SQRT1_2, 2);
    expect(summarise(sum(sine, noise).map((value) => value + 0.9)).rules).not.toContain('large-direct-part');
  });

  it('a clipped one and a noisy one are said as well', () => {
    expect(summarise(sum(clip(sine, 0.7), whiteNoise(length, 1e-4, 1))).rules).toContain('clipping');
    expect(summarise(sum(sine, whiteNoise(length, 0.3, 1))).rules).toContain('harmonics-below-noise');
  });
});
