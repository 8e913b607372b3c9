import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Figure,
  instrumentNotes,
  instrumentTable,
  type MeasuredChannel,
  sayingClock,
  stepOfRecord,
  twoToneFigures,
  withInstrument,
} from '../../src/figures/index.ts';
import {
  type Instrument,
  ownDistortionAt,
  ownDistortionOver,
} from '../../src/figures/instrument/instrument.ts';
import { ownLineRatio } from '../../src/figures/instrument/instrument-two-tone.ts';
import type { Fundamental } from '../../src/signal/index.ts';
import { uniform } from '../signal/signals.ts';
import { gentle, noisy, summaryOf, type TwoTones, twoTones } from '../signal/two-tones.ts';

const provenance = { file: 'a.csv', sha256: null, lines: null, method: 'thd', settings: {} };
const figureOf = (part: Pick<Figure, 'id' | 'value' | 'unit'> & Partial<Figure>): Figure => ({
  ...{ subject: 'out', conditions: {}, provenance },
  ...part,
});

const plain: MeasuredChannel = {
  frequencyHz: 1000,
  freedom: Number.POSITIVE_INFINITY,
  gainFreedom: Number.POSITIVE_INFINITY,
  step: null,
  loadOhm: null,
  ratedReference: false,
  harmonics: [],
  twoTone: null,
};

function measured(
  part: Parameters<typeof figureOf>[0],
  stated: Omit<Instrument, 'name'>,
  channel: Partial<MeasuredChannel> = {},
): Figure {
  const channels = new Map([['out', { ...plain, ...channel }]]);
  const [figure] = withInstrument([figureOf(part)], { instrument: { name: 'Meter', ...stated }, channels });
  if (!figure) throw new Error('A figure went missing');
  return figure;
}

/** Harmonics up to an order, each 3 dB below the one before. */
const counted = (highest: number) =>
  Array.from({ length: highest - 1 }, (_, i) => ({ order: i + 2, ratio: 0.01 * 2 ** (-i / 2) }));

const own = (ratio: number) => ({ ownDistortion: [{ frequencyHz: 1000, ratio }] });
const level = { id: 'fundamental-level', value: 2, unit: 'V' };
/** Arithmetic of doubles. */
const exact = 12;

describe('a limit of error', () => {
  it('is an even spread: the example of JCGM 100:2008, 4.3.7 (from memory)', () => {
    // 16.52e-6 with a limit of 0.40e-6 has u = 0.23e-6, printed with two digits.
    const { systematic } = measured({ ...level, value: 16.52e-6 }, { gainAccuracy: 0.4 / 16.52 });
    expect(systematic).toBeCloseTo(0.23e-6, 8);
  });

  it('counts once for a level, twice for a power, and by the root of two between two channels', () => {
    const terms = { gainAccuracy: 0.03 };
    expect(measured(level, terms).systematic).toBeCloseTo(0.06 / Math.sqrt(3), exact);
    const power = { id: 'output-power', value: 2, unit: 'W' };
    expect(measured(power, terms).systematic).toBeCloseTo(0.12 / Math.sqrt(3), exact);
    const gain = { id: 'gain-at-fundamental', value: 20, unit: 'dB' };
    const db = 20 * Math.log10(1.03);
    expect(measured(gain, terms).systematic).toBeCloseTo((Math.SQRT2 * db) / Math.sqrt(3), exact);
  });

  it('alone bounds the interval of a figure that had none', () => {
    expect(measured(level, { gainAccuracy: 0.03 })).toMatchObject({ low: 1.94, high: 2.06 });
  });

  it('touches no frequency, phase, crest factor, ratio or nominal value', () => {
    for (const [id, unit] of [
      ['fundamental-frequency', 'Hz'],
      ['phase-at-fundamental', '°'],
      ['crest-factor', ''],
      ['thd', '1'],
      ['largest-deviation', 'dB'],
      ['rated-impedance', 'Ω'],
    ] as const) {
      const figure = measured({ id, value: 8, unit, low: 7, high: 9 }, { gainAccuracy: 0.03 });
      expect(figure).toMatchObject({ low: 7, high: 9 });
      expect(figure).not.toHaveProperty('systematic');
    }
  });

  it('is in a signal-to-noise ratio only where the signal is not of the same record', () => {
    const ratio = { id: 'signal-to-noise', value: 90, unit: 'dB' };
    expect(measured(ratio, { gainAccuracy: 0.01 })).not.toHaveProperty('systematic');
    const rated = measured(ratio, { gainAccuracy: 0.01 }, { ratedReference: true });
    expect(rated.systematic).toBeCloseTo((20 * Math.log10(1.01)) / Math.sqrt(3), exact);
  });
});

describe('the clock', () => {
  const frequency = { id: 'fundamental-frequency', value: 1000, unit: 'Hz', low: 999.999, high: 1000.001 };

  it('is an even spread in every frequency with an interval, and joins its noise', () => {
    const { systematic, low, high } = measured(frequency, { clockAccuracy: 50e-6 });
    expect(systematic).toBeCloseTo(0.05 / Math.sqrt(3), exact);
    // Mostly a limit: 1.96·0.05/√3 = 0.057 is cut to the limit and the noise, 0.05 + 0.001.
    expect(low).toBeCloseTo(999.949, 9);
    expect(high).toBeCloseTo(1000.051, 9);
    expect(measured({ ...frequency, id: 'upper-tone-frequency' }, { clockAccuracy: 50e-6 }).low).toBe(low);
  });

  it('touches no place in a sweep and no level', () => {
    for (const part of [{ id: 'lower-limit-3db', value: 20, unit: 'Hz' }, level]) {
      expect(measured(part, { clockAccuracy: 50e-6 })).not.toHaveProperty('systematic');
    }
  });

  it('is said to be missing from a frequency where nothing is stated about it', () => {
    const remarkOf = (part: Parameters<typeof figureOf>[0], stated: Omit<Instrument, 'name'> | null) =>
      sayingClock(figureOf(part), stated && { name: 'Meter', ...stated }).remark;
    expect(remarkOf(frequency, null)).toBe('without the recorder’s clock');
    expect(remarkOf(frequency, { gainAccuracy: 0.01 })).toBe('without the recorder’s clock');
    expect(remarkOf(frequency, { clockAccuracy: 50e-6 })).toBeUndefined();
    expect(remarkOf({ ...frequency, remark: 'short' }, null)).toBe('short, without the recorder’s clock');
    expect(remarkOf({ id: 'lower-limit-3db', value: 20, unit: 'Hz' }, null)).toBeUndefined();
    expect(remarkOf({ ...level, low: 1.9, high: 2.1 }, null)).toBeUndefined();
  });
});

describe('the bandwidth', () => {
  const band = { bandwidthHz: 40_000 };
  const limitOf = (part: Parameters<typeof figureOf>[0], channel: Partial<MeasuredChannel> = {}) =>
    Math.sqrt(3) * (measured(part, band, { frequencyHz: 4000, ...channel }).systematic ?? 0);

  it('lowers a line as a first-order low-pass does: 3.0103 dB at its end, 0.0432 dB a tenth below', () => {
    // Section 4 of the check values: f/fc of 1 and 0.1.
    const at = (frequencyHz: number) => 1 + limitOf({ ...level, value: 1 }, { frequencyHz });
    expect(20 * Math.log10(at(40_000))).toBeCloseTo(3.010299956639812, 9);
    expect(20 * Math.log10(at(4000))).toBeCloseTo(0.043213737826425784, 9);
    const power = 1 + limitOf({ id: 'output-power', value: 1, unit: 'W' });
    expect(10 * Math.log10(power)).toBeCloseTo(0.043213737826425784, 9);
  });

  it('counts for a harmonic against the fundamental, and says where it ends below one', () => {
    const tenth = measured({ id: 'harmonic-10', value: 0.01, unit: '1' }, band, { frequencyHz: 4000 });
    const times = 1 + (Math.sqrt(3) * (tenth.systematic ?? 0)) / 0.01;
    expect(20 * Math.log10(times)).toBeCloseTo(3.010299956639812 - 0.043213737826425784, 9);
    expect(tenth).not.toHaveProperty('remark');
    const beyond = measured({ id: 'harmonic-11', value: 0.01, unit: '1' }, band, { frequencyHz: 4000 });
    expect(beyond.remark).toBe('beyond the instrument’s band');
  });

  it('bounds what any Butterworth low-pass of that bandwidth takes from a sum of harmonics', () => {
    const low = (order: number, hertz: number) => 1 / Math.sqrt(1 + (hertz / 40_000) ** (2 * order));
    const sums: [string, (order: number) => number][] = [
      ['thd', () => 1],
      ['even-harmonics', (n) => (n % 2 === 0 ? 1 : 0)],
      ['odd-harmonics', (n) => n % 2],
      ['thd-weighted-rma', (n) => n / 2],
      ['thd-weighted-shorter', (n) => n ** 2 / 4],
    ];
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 8 }),
        fc.double({ min: 100, max: 3900, noNaN: true }),
        fc.array(fc.double({ min: 1e-6, max: 0.2, noNaN: true }), { minLength: 9, maxLength: 9 }),
        (filter, hertz, truth) => {
          const read = truth.map((ratio, i) => ({
            order: i + 2,
            ratio: (ratio * low(filter, (i + 2) * hertz)) / low(filter, hertz),
          }));
          for (const [id, weight] of sums) {
            const value = Math.hypot(...read.map(({ order, ratio }) => weight(order) * ratio));
            const whole = Math.hypot(...truth.map((ratio, i) => weight(i + 2) * ratio));
            const limit = limitOf({ id, value, unit: '1' }, { frequencyHz: hertz, harmonics: read });
            // Rounding of doubles.
            expect(whole - value).toBeLessThanOrEqual(limit + 1e-12 * whole);
          }
        },
      ),
    );
  });

  it('is in THD+N and SINAD with the harmonics alone', () => {
    const channel = { harmonics: counted(10) };
    const thd = Math.hypot(...channel.harmonics.map(({ ratio }) => ratio));
    const alone = limitOf({ id: 'thd-plus-noise', value: thd, unit: '1' }, channel);
    expect(alone).toBeCloseTo(limitOf({ id: 'thd', value: thd, unit: '1' }, channel), exact);
    expect(limitOf({ id: 'thd-plus-noise', value: 10 * thd, unit: '1' }, channel)).toBeLessThan(alone / 5);
    const sinad = limitOf({ id: 'sinad', value: -20 * Math.log10(thd), unit: 'dB' }, channel);
    expect(sinad).toBeCloseTo(20 * Math.log10(1 + alone / thd), 9);
  });

  it('touches nothing whose frequency or harmonics are not known, and nothing of low frequency', () => {
    expect(limitOf(level, { frequencyHz: null })).toBe(0);
    expect(limitOf({ id: 'thd', value: 0.01, unit: '1' })).toBe(0);
    expect(limitOf({ id: 'hum', value: 0.01, unit: 'V' })).toBe(0);
    expect(limitOf({ id: 'crest-factor', value: 1.4, unit: '' })).toBe(0);
  });

  it('bounds the lines of two tones against either tone', () => {
    // 60 Hz and 7 kHz, 4 to 1, whole cycles of both in a quarter of a second.
    const tones: TwoTones = {
      ...{ length: 48_000, frequencies: [60 / 192_000, 7000 / 192_000], amplitudes: [0.8, 0.2] },
    };
    const twoTone = summaryOf(noisy(twoTones(tones, gentle), 1e-5, 1)).channels[0] ?? null;
    if (!twoTone?.tones) throw new Error('no tones');
    const loss = (hertz: number) => Math.hypot(1, hertz / 40_000);
    const { lower, upper } = twoTone.tones;
    const of = (id: string) => limitOf({ id, value: 1, unit: '1' }, { twoTone });
    expect(of('upper-tone-level')).toBeCloseTo(loss(upper.frequencyHz) - 1, exact);
    expect(of('lower-tone-level')).toBeCloseTo(loss(lower.frequencyHz) - 1, exact);
    const line = twoTone.products.find(({ name }) => name === 'f2 + f1');
    if (!line) throw new Error('no line');
    const expected = [lower, upper].map((tone) =>
      Math.abs(loss(line.frequencyHz) / loss(tone.frequencyHz) - 1),
    );
    expect(of('intermodulation-f2-plus-f1')).toBeCloseTo(Math.max(...expected), exact);
    expect(of('modulation-second')).toBeGreaterThanOrEqual(of('intermodulation-f2-plus-f1'));
  });
});

describe('own distortion in weighted sums', () => {
  const stated = own(0.003);

  it('is that of the highest order that was counted, which no other share of it exceeds', () => {
    const orders = [2, 3, 4, 5, 6, 7, 8, 9, 10];
    const systematicOf = (id: string) =>
      measured({ id, value: 0.2, unit: '1', low: 0.19, high: 0.21 }, stated, { harmonics: counted(10) })
        .systematic ?? 0;
    const bounds = {
      rma: Math.SQRT2 * systematicOf('thd-weighted-rma'),
      shorter: Math.SQRT2 * systematicOf('thd-weighted-shorter'),
    };
    // The weights of section 5 of the check values: n/2 and n²/4 of order 10.
    expect(bounds.rma).toBeCloseTo(0.003 * 5, exact);
    expect(bounds.shorter).toBeCloseTo(0.003 * 25, exact);
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: 9, maxLength: 9 }),
        (shares) => {
          const whole = Math.hypot(...shares);
          const lines = shares.map((share, i) => ({ order: orders[i] ?? 2, ratio: (0.003 * share) / whole }));
          const sum = (weight: (order: number) => number) =>
            Math.hypot(...lines.map(({ order, ratio }) => weight(order) * ratio));
          // Rounding of doubles.
          expect(sum((n) => n / 2)).toBeLessThanOrEqual(bounds.rma * (1 + 1e-12));
          expect(sum((n) => n ** 2 / 4)).toBeLessThanOrEqual(bounds.shorter * (1 + 1e-12));
        },
      ),
    );
  });

  it('says so where it could have given the sum, and counts nothing without harmonics', () => {
    const weighted = { id: 'thd-weighted-rma', value: 0.012, unit: '1', low: 0.011, high: 0.013 };
    expect(measured(weighted, stated, { harmonics: counted(10) }).remark).toMatch(/of the highest order$/);
    expect(measured(weighted, stated, { harmonics: counted(2) })).not.toHaveProperty('remark');
    expect(measured(weighted, stated)).toMatchObject({ low: 0.011, high: 0.013 });
  });
});

describe('own distortion in what was added between two channels', () => {
  const bound = (id: 'least' | 'most', value: number) =>
    measured({ id: `added-distortion-${id}`, value, unit: '1' }, own(0.003));

  it('is that of both channels, and moves a bound by no more than both together', () => {
    const { systematic, low, high = 0 } = bound('most', 0.04);
    expect(systematic).toBeCloseTo(0.003, exact);
    // 1.96 of them; all that two can do is 2.
    expect(high - 0.04).toBeCloseTo(1.959963984540054 * 0.003, exact);
    expect(low).toBeLessThan(0.04);
    expect(bound('least', 0.001).low).toBe(0);
  });

  it('holds what was added in nineteen of twenty phases and more', () => {
    // Harmonics of 1 % and 3 % in the circuit; the instrument adds 0.3 % in any phase to each reading.
    const turn = uniform(7);
    const within = Array.from({ length: 2000 }, () => {
      const [first, second, between] = [turn(), turn(), turn()].map((share) => 2 * Math.PI * share);
      const read = (size: number, phase = 0) =>
        Math.hypot(size + 0.003 * Math.cos(phase), 0.003 * Math.sin(phase));
      const [stimulus, response] = [read(0.01, first), read(0.03, second)];
      const added = Math.hypot(0.03 - 0.01 * Math.cos(between ?? 0), 0.01 * Math.sin(between ?? 0));
      const low = bound('least', Math.abs(response - stimulus)).low ?? 0;
      const high = bound('most', response + stimulus).high ?? 0;
      return added >= low && added <= high;
    });
    expect(within.filter(Boolean).length / within.length).toBeGreaterThan(0.95);
  });

  it('is not remarked at a lower bound, which may be nothing anyway', () => {
    expect(bound('least', 0.001)).not.toHaveProperty('remark');
    expect(bound('most', 0.005).remark).toBe('at or below the instrument’s own distortion');
    expect(bound('most', 0.007)).not.toHaveProperty('remark');
  });
});

describe('the step of a converter', () => {
  it('is 0.29 steps of standard uncertainty for a constant: JCGM 100:2008, F.2.2.1 (from memory)', () => {
    const dc = { id: 'dc', value: -0.001, unit: 'V' };
    const { systematic = 0, low, high } = measured(dc, {}, { step: 0.04 });
    // Printed with two digits.
    expect(systematic / 0.04).toBeCloseTo(0.29, 2);
    expect(low).toBeCloseTo(-0.021, exact);
    expect(high).toBeCloseTo(0.019, exact);
  });

  it('is not counted again in a figure of a waveform, whose noise holds it', () => {
    expect(measured(level, {}, { step: 0.04 })).not.toHaveProperty('systematic');
  });

  it('counts in a power that is read from the rows of a sweep in volts', () => {
    // 2 V across 4 Ω: dP = 2·U·dU/R with dU up to half a step.
    const power = { id: 'largest-power', value: 1, unit: 'W' };
    const { high = 0 } = measured(power, {}, { step: 0.02, loadOhm: 4 });
    expect(high - 1).toBeCloseTo((2 * 2 * 0.01) / 4, exact);
  });

  it('is that of the samples where they show a smaller range, and else that of the largest input', () => {
    const scope = { name: 'Scope', bits: 8, largestInput: 40 };
    expect(stepOfRecord(scope, { probe: 1, peak: 4.5, levelStep: 0.04 })).toBe(0.04);
    // 128 steps of 10 mV hold 1.28 V: a peak of 4.5 V shows that these are not the converter's steps.
    expect(stepOfRecord(scope, { probe: 1, peak: 4.5, levelStep: 0.01 })).toBe(0.3125);
    expect(stepOfRecord(scope, { probe: 10, peak: 45, levelStep: null })).toBe(3.125);
    expect(stepOfRecord({ name: 'Meter', bits: 8 }, { probe: 1, peak: 1, levelStep: 0.04 })).toBeNull();
  });
});

describe('own distortion', () => {
  const thd = { id: 'thd', value: 0.01, unit: '1', low: 0.0098, high: 0.0102 };

  it('adds with unknown phase: u = r/√2 of JCGM 101:2008, 6.4.6 (from memory)', () => {
    const figure = measured(thd, own(0.003));
    expect(figure.systematic).toBeCloseTo(0.003 / Math.SQRT2, exact);
    expect(figure.remark).toBeUndefined();
    // Noise of 0.02 % to either side beside at most 0.3 %.
    expect(figure.low).toBeGreaterThanOrEqual(0.0068);
    expect(figure.low).toBeLessThan(0.00701);
  });

  it('is remarked where it alone could have made the figure, detected or not', () => {
    const remark = 'at or below the instrument’s own distortion';
    expect(measured(thd, own(0.01))).toMatchObject({ remark, low: 0 });
    const faint = { id: 'harmonic-4', value: 1e-4, unit: '1', low: 0, high: 4e-4 };
    const told = measured({ ...faint, remark: 'not told from noise' }, own(0.003));
    expect(told.remark).toBe(`not told from noise, ${remark}`);
    expect(told).toMatchObject({ low: 0 });
    expect(told.high).toBeCloseTo(0.0031, 3);
    expect(told).not.toHaveProperty('random');
  });

  it('bounds SINAD in decibels, or leaves it without an interval where it could be all of it', () => {
    const sinad = { id: 'sinad', value: 40, unit: 'dB' };
    const figure = measured(sinad, own(0.005));
    // Residual of 1 % less 0.5 %.
    expect(figure.high).toBeCloseTo(40 + 20 * Math.log10(2), exact);
    const covered = measured(sinad, own(0.02));
    expect(covered.remark).toMatch(/own distortion/);
    expect(covered).not.toHaveProperty('low');
  });

  it('runs straight over the logarithm of frequency and is held beyond the ends', () => {
    const meter = {
      name: 'Meter',
      ownDistortion: [
        { frequencyHz: 100, ratio: 0.001 },
        { frequencyHz: 10_000, ratio: 0.003 },
      ],
    };
    expect(ownDistortionAt(meter, 1000)).toBeCloseTo(0.002, exact);
    expect(ownDistortionAt(meter, 20)).toBe(0.001);
    expect(ownDistortionAt(meter, 20_000)).toBe(0.003);
    expect(ownDistortionAt(meter, null)).toBe(0.003);
    expect(ownDistortionAt({ name: 'Meter' }, 1000)).toBeNull();
    expect(ownDistortionOver(meter, [100, 1000])).toBeCloseTo(0.002, exact);
    const notes = (frequencyHz: number) =>
      instrumentNotes({ instrument: meter, channels: new Map([['out', { ...plain, frequencyHz }]]) })
        .join(' ')
        .replaceAll('\u00a0', ' ');
    expect(notes(20)).toContain('Own distortion at 20.0 Hz: 0.10 %, held from 100 Hz.');
    expect(notes(1000)).toContain('Own distortion at 1.00 kHz: 0.20 %.');
  });

  it('of a sweep is that at 1 kHz, of a level sweep at its frequency, of neither a slope', () => {
    const meter = {
      ownDistortion: [
        { frequencyHz: 1000, ratio: 0.001 },
        { frequencyHz: 10_000, ratio: 0.003 },
      ],
    };
    const at = (id: string, frequencyHz: number | null) =>
      measured({ id, value: 0.1, unit: '1' }, meter, { frequencyHz }).systematic;
    expect(at('harmonic-2-at-1khz', null)).toBeCloseTo(0.001 / Math.SQRT2, exact);
    expect(at('thd-at-250mw', 10_000)).toBeCloseTo(0.003 / Math.SQRT2, exact);
    expect(at('thd-at-1w', null)).toBeCloseTo(0.003 / Math.SQRT2, exact);
    expect(measured({ id: 'harmonic-2-slope', value: 1, unit: 'dB/dB' }, meter)).not.toHaveProperty('low');
  });
});

describe('two tones in a curve with a single term', () => {
  const samples = 256;
  /** Peak of the line at a whole number of cycles, by a plain Fourier sum. */
  const line = (values: readonly number[], cycles: number) => {
    const part = (of: (angle: number) => number) =>
      values.reduce((sum, value, k) => sum + value * of((2 * Math.PI * cycles * k) / samples), 0);
    return (2 / samples) * Math.hypot(part(Math.cos), part(Math.sin));
  };
  const sampled = (at: (time: number) => number) =>
    Array.from({ length: samples }, (_, k) => at((2 * Math.PI * k) / samples));

  it.each([
    { first: -1, second: 1, cycles: 16 },
    { first: -2, second: 1, cycles: 13 },
    { first: 2, second: 1, cycles: 25 },
    { first: -1, second: 2, cycles: 35 },
    { first: -2, second: 2, cycles: 32 },
  ])('make the line $first·f1 + $second·f2 as stated', ({ first, second, cycles }) => {
    const [low, high] = [0.8, 0.2];
    const order = Math.abs(first) + Math.abs(second);
    const curve = (x: number) => x ** order;
    // One sine of the same peak: its highest harmonic over a fundamental of unit gain.
    const one =
      line(
        sampled((time) => curve((low + high) * Math.cos(5 * time))),
        5 * order,
      ) /
      (low + high);
    const both = sampled((time) => curve(low * Math.cos(3 * time) + high * Math.cos(19 * time)));
    const tone = (rms: number) => ({ rms }) as Fundamental;
    const found = ownLineRatio({ first, second }, { lower: tone(low), upper: tone(high) }, one);
    // Rounding of 256 sums.
    expect(found).toBeCloseTo(line(both, cycles) / high, 10);
  });
});

describe('two-tone figures', () => {
  const rate = 192_000;
  const context = { conditions: {}, provenance: { file: 'a.csv', sha256: null, lines: null } };
  const limitsOf = (tones: TwoTones, own: number) => {
    const summary = summaryOf(noisy(twoTones(tones, gentle), 1e-5, 1));
    const [channel] = summary.channels;
    if (!channel) throw new Error('no channel');
    const channels = new Map([[channel.name, { ...plain, frequencyHz: null, twoTone: channel }]]);
    const instrument = { name: 'Meter', ownDistortion: [{ frequencyHz: 1000, ratio: own }] };
    const figures = withInstrument(twoToneFigures(summary, context), { instrument, channels });
    return (id: string) => (figures.find((figure) => figure.id === id)?.systematic ?? 0) * (Math.SQRT2 / own);
  };

  it('of 4 to 1 have 3.2 and 3.84 times the own distortion in their sums of sidebands', () => {
    // For pure second and third order: 2·2·(0.8·0.2)/0.2 and 2·3·(0.8²·0.2)/0.2; the curve presses the tones by 2e-4.
    const of = limitsOf(
      { length: 8192, frequencies: [250 / rate, 8000 / rate], amplitudes: [0.8, 0.2] },
      0.001,
    );
    expect(of('modulation-second')).toBeCloseTo(3.2, 2);
    expect(of('modulation-third')).toBeCloseTo(3.84, 2);
    expect(of('modulation-total')).toBeCloseTo(Math.hypot(3.2, 3.84), 2);
    expect(of('modulation-sidebands')).toBeCloseTo(Math.hypot(3.2, 3.84) / Math.SQRT2, 2);
    expect(of('rms')).toBe(0);
  });

  it('of equal tones have half of it re both tones, all of it re one, and three quarters in third order', () => {
    const of = limitsOf(
      { length: 8192, frequencies: [19_000 / rate, 20_000 / rate], amplitudes: [0.5, 0.5] },
      0.001,
    );
    expect(of('difference-second')).toBeCloseTo(0.5, 2);
    expect(of('difference-second-one-tone')).toBeCloseTo(1, 2);
    expect(of('difference-third')).toBeCloseTo(0.75, 2);
    expect(of('difference-third-rss')).toBeCloseTo(0.75 / Math.SQRT2, 2);
    expect(of('intermodulation-f2-minus-f1')).toBeCloseTo(1, 2);
  });
});

describe('noise and instrument together', () => {
  const half = ({ value, high = 0 }: Figure) => high - (value ?? 0);

  it('have the effective degrees of freedom of Welch and Satterthwaite: JCGM 100:2008, G.4.1', () => {
    // u_A = u_B = 0.02 with 4 degrees: 16 in effect, t = 2.12 (table G.2, from memory; printed with three digits).
    const noise = 2.776_445 * 0.02;
    const figure = measured(
      { ...level, low: 2 - noise, high: 2 + noise },
      { gainAccuracy: 0.01 * Math.sqrt(3) },
      { freedom: 4 },
    );
    expect(half(figure) / (Math.SQRT2 * 0.02)).toBeCloseTo(2.12, 2);
    // Student's t of the code holds to 0.2 % from three degrees on.
    expect((figure.random ?? 0) / 0.02).toBeCloseTo(1, 2);
  });

  it('leave the interval of the noise where the instrument adds little', () => {
    const figure = measured({ ...level, low: 1.9, high: 2.1 }, { gainAccuracy: 1e-6 });
    expect(half(figure)).toBeCloseTo(0.1, 6);
  });

  it('never exceed the half of the noise and the limit of error added', () => {
    const figure = measured({ ...level, low: 1.999, high: 2.001 }, { gainAccuracy: 0.01 });
    expect(half(figure)).toBeCloseTo(0.021, exact);
  });

  it('keep an uneven interval uneven', () => {
    const uneven = { id: 'hum', value: 1, unit: 'V', low: 0.2, high: 1.1 };
    const { low = 0, high = 0 } = measured(uneven, { gainAccuracy: 0.1 });
    // Root sums of 0.8 and 0.1 with 1.96 · 0.1/√3.
    expect(1 - low).toBeCloseTo(Math.hypot(0.8, (1.959964 * 0.1) / Math.sqrt(3)), 5);
    expect(high - 1).toBeCloseTo(Math.hypot(0.1, (1.959964 * 0.1) / Math.sqrt(3)), 5);
  });
});

describe('what a reader is told', () => {
  it('is the instrument with its terms among the settings of every figure, also of one that does not exist', () => {
    const absent = measured({ id: 'thd', value: null, unit: '1', absent: 'No fundamental.' }, own(0.003));
    expect(absent.provenance.settings).toEqual({ Instrument: 'Meter: own distortion 0.3\u00a0%' });
    expect(absent).not.toHaveProperty('low');
    expect(measured(level, {}).provenance.settings['Instrument']).toBe(
      'Meter: nothing stated about its errors',
    );
  });

  it('is the share of the variance that the instrument has', () => {
    const noise = 1.959964 * 0.02;
    const even = { ...level, low: 2 - noise, high: 2 + noise };
    const rows = (part: typeof even) =>
      instrumentTable([measured(part, { gainAccuracy: 0.01 * Math.sqrt(3) })])?.rows;
    // Equal standard uncertainties.
    expect(rows(even)?.[0]?.at(-1)).toBe('50\u00a0%');
    expect(rows({ ...even, low: 2 - noise / 100, high: 2 + noise / 100 })?.[0]?.at(-1)).toBe(
      'over 99\u00a0%',
    );
    expect(instrumentTable([figureOf(level)])).toBeNull();
  });
});
