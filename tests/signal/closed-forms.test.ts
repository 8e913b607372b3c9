import { describe, expect, it } from 'vitest';
import { type ChannelSummary, summariseWaveform } from '../../src/signal/index.ts';
import { check } from './checks.ts';
import { channel, sum, tone } from './signals.ts';

/** 1361 cycles in 65536 samples: no two samples meet the same phase, so a cycle is sampled 65536 times. */
const length = 65_536;
const cycles = 1361;

/** Few enough cycles in as many samples for a hundred orders below half the rate. */
const fewCycles = 311;

/** The figures, to order 100, of a function of a unit sine. */
function richFiguresOf(shape: (sine: number) => number) {
  const values = Float64Array.from({ length }, (_, n) =>
    shape(Math.sin((2 * Math.PI * fewCycles * n) / length + 0.3)),
  );
  return only(values, 100);
}

/** The figures of a function of a unit sine (or of another wave) sampled over whole cycles. */
function figuresOf(
  shape: (sine: number) => number,
  harmonics = 30,
  wave: (angle: number) => number = Math.sin,
) {
  const values = Float64Array.from({ length }, (_, n) =>
    shape(wave((2 * Math.PI * cycles * n) / length + 0.3)),
  );
  return only(values, harmonics);
}

function only(values: Float64Array, harmonics: number): ChannelSummary {
  const [summary] = summariseWaveform([channel(values)], 48_000, { harmonics }).channels;
  if (!summary) throw new Error('no channel');
  return summary;
}

const ratioOf = (summary: ChannelSummary, order: number) =>
  summary.harmonics.find((harmonic) => harmonic.order === order)?.ratio ?? Number.NaN;

const of = (id: string) => check('closed-forms', id);

describe.each([8, 16, 64, 1024])('a square wave of %i samples a cycle', (samples) => {
  it('has the THD of its closed form when every order is counted', () => {
    const values = Float64Array.from({ length: 16 * samples }, (_, n) =>
      n % samples < samples / 2 ? 1 : -1,
    );
    const orders = Math.min(100, samples / 2 - 1);
    const { thd } = only(values, orders);
    const all = of(`square of ${samples} samples: THD`);
    // The harmonics are exact in the samples. Beyond order 100 the rest of the series is left out: Σ 1/n² of a sampled
    // square, from order 101 on, is about 1/200 of the power.
    expect(Math.abs((thd?.ratio ?? 0) - all)).toBeLessThan(samples > 200 ? 6e-3 : 1e-10);
    expect(thd?.orders).toEqual([2, orders]);
  });
});

describe('standard waves to a limited order', () => {
  it('a sawtooth and a triangle have the partial sums of their series', () => {
    const saw = figuresOf(
      (sine) => sine,
      10,
      (angle) => ((angle / Math.PI) % 2) - 1,
    );
    const triangle = figuresOf((sine) => Math.asin(sine), 9);
    // Samples of a wave with a jump fold high orders back: some 1e-5 with 65536 phases; a triangle has no jump.
    expect(saw.thd?.ratio).toBeCloseTo(of('sawtooth, orders to 10: THD'), 4);
    expect(triangle.thd?.ratio).toBeCloseTo(of('triangle, orders to 9: THD'), 8);
  });
});

describe.each(['0.99', '0.95', '0.9', '0.8912509381337456', '0.8', '0.7071067811865476', '0.5', '0.1'])(
  'an ideal clipper at %s of a unit sine',
  (limit) => {
    const bound = Number(limit);
    const summary = figuresOf((sine) => Math.max(-bound, Math.min(bound, sine)), 10);
    const value = (what: string) => of(`clipper at ${limit}: ${what}`);

    it('has the fundamental, harmonics and rms of its Fourier series', () => {
      // Orders beyond the tenth are left in the residual and move the frequency by a part of a ten-thousandth of a
      // cycle per record, which changes amplitudes in the eighth digit at most.
      expect((summary.fundamental?.rms ?? 0) * Math.SQRT2).toBeCloseTo(value('first'), 8);
      const names = { 3: 'third', 5: 'fifth', 7: 'seventh', 9: 'ninth' };
      Object.entries(names).forEach(([order, name]) => {
        expect(ratioOf(summary, Number(order))).toBeCloseTo(Math.abs(value(name)) / value('first'), 8);
      });
      // rms of whole cycles: the samples' own error of a few 1e-9 at the corners.
      expect(summary.rms).toBeCloseTo(value('rms'), 8);
    });

    it('has no even harmonics beyond rounding', () => {
      [2, 4, 6, 8, 10].forEach((order) => {
        expect(ratioOf(summary, order)).toBeLessThan(1e-7);
      });
    });

    it('is reported as clipping', () => {
      expect(summary.clipping).toBe(true);
    });
  },
);

describe('curves with a corner, driven by a sine', () => {
  it.each(['0.1', '0.5', '0.9'])('a dead zone of %s has the THD of its Fourier series', (width) => {
    const zone = Number(width);
    const summary = richFiguresOf((sine) => Math.sign(sine) * Math.max(Math.abs(sine) - zone, 0));
    // Harmonics fall as 1/n²; beyond order 100 they hold some 1e-5 of the power of the narrow peaks that 0.9 leaves.
    expect(summary.thd?.ratio).toBeCloseTo(of(`dead zone of ${width}: THD`), 4);
  });

  it('a half-wave rectified sine has the even harmonics and the THD of its Fourier series', () => {
    const summary = richFiguresOf((sine) => Math.max(0, sine));
    // Order n is 2/(π·n²): the orders left out, all even, hold less than 1e-6 of the fundamental's power.
    expect(ratioOf(summary, 2)).toBeCloseTo(of('half-wave rectified: second'), 8);
    expect(ratioOf(summary, 4)).toBeCloseTo(of('half-wave rectified: fourth'), 8);
    expect(ratioOf(summary, 6)).toBeCloseTo(of('half-wave rectified: sixth'), 8);
    expect(summary.thd?.ratio).toBeCloseTo(of('half-wave rectified: THD'), 5);
  });

  it('a full-wave rectified sine is taken for one of twice the frequency', () => {
    const summary = richFiguresOf(Math.abs);
    // As above; the frequency is that of the strongest line.
    expect(summary.fundamental?.frequencyHz).toBeCloseTo((2 * fewCycles * 48_000) / length, 6);
    expect(ratioOf(summary, 2)).toBeCloseTo(of('full-wave rectified: second'), 7);
    expect(ratioOf(summary, 3)).toBeCloseTo(of('full-wave rectified: third'), 7);
    expect(summary.thd?.ratio).toBeCloseTo(of('full-wave rectified: THD'), 5);
  });
});

describe.each([2, 3, 4, 5, 7])('the Chebyshev polynomial of degree %i driven by a sine', (degree) => {
  it('adds a harmonic of that order alone', () => {
    const summary = figuresOf((x) => x + 0.1 * Math.cos(degree * Math.acos(x)), 10, Math.cos);
    // Identity T_n(cos t) = cos nt; acos loses half the digits next to ±1.
    expect(ratioOf(summary, degree)).toBeCloseTo(0.1, 9);
    expect(summary.thd?.ratio).toBeCloseTo(0.1, 9);
  });
});

describe('smooth curves driven by a sine', () => {
  it('atan(g·sin) has the harmonics and the THD of its series', () => {
    const gentle = figuresOf((sine) => Math.atan(0.1 * sine));
    const one = figuresOf(Math.atan);
    const two = figuresOf((sine) => Math.atan(2 * sine));
    // The next order, the 31st, is below 1e-13 of the fundamental for g = 1 and below 1e-7 for g = 2.
    expect(ratioOf(one, 3)).toBeCloseTo(of('atan of 1: third'), 11);
    expect(ratioOf(one, 5)).toBeCloseTo(of('atan of 1: fifth'), 11);
    expect(one.thd?.ratio).toBeCloseTo(of('atan of 1: THD'), 11);
    expect(ratioOf(two, 3)).toBeCloseTo(of('atan of 2: third'), 9);
    expect(two.thd?.ratio).toBeCloseTo(of('atan of 2: THD'), 9);
    expect(gentle.thd?.ratio).toBeCloseTo(of('atan of 0.1: THD'), 12);
  });

  it('curves driven hard have the THD of a hundred orders', () => {
    // atan(10·sin): order 101 is 1e-6 of the fundamental, and what lies beyond 1e-11 of its power; tanh(3·sin) less.
    expect(richFiguresOf((sine) => Math.atan(10 * sine)).thd?.ratio).toBeCloseTo(of('atan of 10: THD'), 8);
    expect(richFiguresOf((sine) => Math.tanh(3 * sine)).thd?.ratio).toBeCloseTo(of('tanh of 3: THD'), 9);
    expect(
      ratioOf(
        figuresOf((sine) => Math.sin(0.5 * sine)),
        3,
      ),
    ).toBeCloseTo(of('sin of 0.5: third'), 12);
  });

  it('a cubic has the harmonics of its expansion', () => {
    const summary = figuresOf((x) => x + 0.01 * x ** 2 + 0.001 * x ** 3, 10, Math.cos);
    // Nothing lies beyond the third order: double precision.
    expect((summary.fundamental?.rms ?? 0) * Math.SQRT2).toBeCloseTo(of('cubic: first'), 12);
    expect(ratioOf(summary, 2)).toBeCloseTo(of('cubic: second'), 12);
    expect(ratioOf(summary, 3)).toBeCloseTo(of('cubic: third'), 12);
    expect(summary.thd?.ratio).toBeCloseTo(of('cubic: THD'), 12);
  });

  it('tanh(g·sin) has the harmonics and the THD found by quadrature', () => {
    const half = figuresOf((sine) => Math.tanh(0.5 * sine));
    const one = figuresOf(Math.tanh);
    const two = figuresOf((sine) => Math.tanh(2 * sine));
    // Thirty orders leave less than 1e-9 of the fundamental for g ≤ 2.
    expect(ratioOf(half, 3)).toBeCloseTo(of('tanh of 0.5: third'), 11);
    expect(half.thd?.ratio).toBeCloseTo(of('tanh of 0.5: THD'), 11);
    expect(ratioOf(one, 3)).toBeCloseTo(of('tanh of 1: third'), 11);
    expect(ratioOf(one, 5)).toBeCloseTo(of('tanh of 1: fifth'), 11);
    expect(ratioOf(one, 7)).toBeCloseTo(of('tanh of 1: seventh'), 11);
    expect(one.thd?.ratio).toBeCloseTo(of('tanh of 1: THD'), 11);
    expect(two.thd?.ratio).toBeCloseTo(of('tanh of 2: THD'), 9);
  });

  it('sin(sin) and exp(g·cos) have Bessel functions for harmonics', () => {
    const folded = figuresOf(Math.sin);
    const exponential = figuresOf(Math.exp, 30, Math.cos);
    const weak = figuresOf((cosine) => Math.exp(0.1 * cosine), 30, Math.cos);
    // Thirty orders hold all of these series to double precision.
    expect(ratioOf(folded, 3)).toBeCloseTo(of('sin of 1: third'), 12);
    expect(ratioOf(folded, 5)).toBeCloseTo(of('sin of 1: fifth'), 12);
    expect(folded.thd?.ratio).toBeCloseTo(of('sin of 1: THD'), 12);
    expect(exponential.dc).toBeCloseTo(of('exp of 1: constant'), 12);
    expect((exponential.fundamental?.rms ?? 0) * Math.SQRT2).toBeCloseTo(of('exp of 1: first'), 12);
    expect(ratioOf(exponential, 2)).toBeCloseTo(of('exp of 1: second'), 12);
    expect(ratioOf(exponential, 3)).toBeCloseTo(of('exp of 1: third'), 12);
    expect(ratioOf(exponential, 4)).toBeCloseTo(of('exp of 1: fourth'), 12);
    expect(exponential.thd?.ratio).toBeCloseTo(of('exp of 1: THD'), 12);
    expect(ratioOf(weak, 2)).toBeCloseTo(of('exp of 0.1: second'), 12);
    expect(weak.thd?.ratio).toBeCloseTo(of('exp of 0.1: THD'), 12);
  });

  it('a polynomial of fifth degree has the harmonics of its expansion', () => {
    const summary = figuresOf((x) => x + 0.01 * x ** 2 + 0.001 * x ** 3 + 0.0002 * x ** 5, 10, Math.cos);
    // Nothing lies beyond the fifth order: double precision.
    expect(summary.dc).toBeCloseTo(of('polynomial: constant'), 12);
    expect((summary.fundamental?.rms ?? 0) * Math.SQRT2).toBeCloseTo(of('polynomial: first'), 12);
    expect(ratioOf(summary, 2)).toBeCloseTo(of('polynomial: second'), 12);
    expect(ratioOf(summary, 3)).toBeCloseTo(of('polynomial: third'), 12);
    expect(ratioOf(summary, 5)).toBeCloseTo(of('polynomial: fifth'), 12);
    expect(summary.thd?.ratio).toBeCloseTo(of('polynomial: THD'), 12);
    // All harmonics of a cosine polynomial with positive coefficients are in phase with the fundamental.
    [2, 3, 5].forEach((order) => {
      const phase = summary.harmonics.find((harmonic) => harmonic.order === order)?.relativePhaseDeg ?? 180;
      expect(Math.abs(phase)).toBeLessThan(1e-6);
    });
  });
});

describe('the worked mix of fundamental, two harmonics and noise', () => {
  // Noise of 0.012 rms as three tones that are no harmonics, inside the band; all lines are whole cycles.
  const at = (line: number, rms: number) =>
    tone(length, { frequency: line / length, amplitudes: [rms * Math.SQRT2], phases: [line] });
  const noise = 0.012 / Math.sqrt(3);
  const values = sum(
    tone(length, {
      frequency: cycles / length,
      amplitudes: [1, 0.003, 0.004].map((rms) => rms * Math.SQRT2),
    }),
    at(700, noise),
    at(5000, noise),
    at(20_000, noise),
  );
  const [summary] = summariseWaveform([channel(values)], 48_000).channels;
  const of = (id: string) => check('definitions', `worked mix: ${id}`);

  it('has the THD, THD+N and SINAD of the arithmetic', () => {
    // The tones pull the fitted frequency by some 1e-5 cycles per record: ninth digit of the amplitudes.
    expect(summary?.thd?.ratio).toBeCloseTo(of('THD'), 7);
    expect(summary?.thdPlusNoise?.ratio).toBeCloseTo(of('THD+N re fundamental'), 7);
    expect(summary?.sinadDb).toBeCloseTo(of('SINAD in dB'), 5);
    expect(summary?.noiseRms).toBeCloseTo(0.012, 7);
  });

  it('counts in a band only what lies inside it', () => {
    const narrow = summariseWaveform([channel(values)], 48_000, { bandHz: [600, 2500] }).channels[0];
    // Lines 1361 to 5000 stand for 997 to 3662 Hz: of harmonics the second (1994 Hz), of noise nothing.
    expect(narrow?.thdPlusNoise?.ratio).toBeCloseTo(0.003, 7);
    expect(narrow?.thdPlusNoise?.bandHz).toEqual([600, 2500]);
  });
});
