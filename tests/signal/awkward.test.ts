import { describe, expect, it } from 'vitest';
import {
  type ChannelSummary,
  summariseWaveform,
  type WaveformOptions,
  type WaveformSummary,
} from '../../src/signal/index.ts';
import { channel, pinkNoise, quantise, sum, tone, whiteNoise } from './signals.ts';

const length = 4096;

function summarise(values: Float64Array, options: WaveformOptions = {}, rateHz = 48_000): WaveformSummary {
  return summariseWaveform([channel(values)], rateHz, options);
}

function only({ channels }: WaveformSummary): ChannelSummary {
  const [summary] = channels;
  if (!summary) throw new Error('no channel');
  return summary;
}

const rules = ({ warnings }: WaveformSummary) => warnings.map(({ rule }) => rule);
const reasonFor = ({ withheld }: ChannelSummary, figure: string) =>
  withheld.find((entry) => entry.figure === figure)?.reason;
const sine = (cycles: number, samples = length) =>
  tone(samples, { frequency: cycles / samples, amplitudes: [1, 0.02], phases: [0.4, 1] });
const drift = (perRecord: number) =>
  Float64Array.from({ length }, (_, n) => Math.sin(0.3 * n * (1 + (perRecord * n) / (2 * length))));

/** Records without a fundamental: the rule that says so, and whether the samples still give a mean and an rms. */
const refused: { name: string; values: Float64Array; rule: string; moments: boolean }[] = [
  { name: 'an empty record', values: new Float64Array(), rule: 'record-too-short', moments: false },
  { name: 'a record of fifteen samples', values: sine(3, 15), rule: 'record-too-short', moments: false },
  { name: 'a record of zeros', values: new Float64Array(length), rule: 'constant-record', moments: true },
  {
    name: 'a constant record',
    values: new Float64Array(length).fill(0.1),
    rule: 'constant-record',
    moments: true,
  },
  {
    name: 'a record with one NaN',
    values: sine(50).with(7, Number.NaN),
    rule: 'sample-not-finite',
    moments: false,
  },
  {
    name: 'a record with one infinity',
    values: sine(50).with(7, Number.POSITIVE_INFINITY),
    rule: 'sample-not-finite',
    moments: false,
  },
  { name: 'white noise', values: whiteNoise(length, 1, 1), rule: 'no-clear-fundamental', moments: true },
  { name: '1/f noise', values: pinkNoise(length, 1, 1), rule: 'no-clear-fundamental', moments: true },
  { name: 'one step', values: new Float64Array(length).fill(1, 2000), rule: 'too-few-cycles', moments: true },
  {
    name: 'a single spike',
    values: new Float64Array(length).fill(1, 2000, 2001),
    rule: 'no-clear-fundamental',
    moments: true,
  },
  { name: 'half a cycle', values: sine(0.6), rule: 'too-few-cycles', moments: true },
  { name: 'one and a half cycles', values: sine(1.5), rule: 'too-few-cycles', moments: true },
  {
    name: 'a frequency that drifts by a hundredth',
    values: drift(0.01),
    rule: 'unsteady-fundamental',
    moments: true,
  },
  {
    name: 'a burst over half the record',
    values: sine(50).fill(0, 2048),
    rule: 'unsteady-fundamental',
    moments: true,
  },
  {
    name: 'a sine at half the sampling rate',
    values: Float64Array.from({ length }, (_, n) => n % 2),
    rule: 'no-clear-fundamental',
    moments: true,
  },
];

describe.each(refused)('$name', ({ values, rule, moments }) => {
  const summary = summarise(values);
  const figures = only(summary);

  it(`has no fundamental, and "${rule}" says why`, () => {
    expect(figures.fundamental).toBeNull();
    expect(figures.thd).toBeNull();
    expect(figures.thdPlusNoise).toBeNull();
    expect(figures.sinadDb).toBeNull();
    expect(figures.clipping).toBeNull();
    expect(figures.harmonics).toEqual([]);
    expect(rules(summary)).toEqual([rule]);
  });

  it('gives the reason beside every figure that is withheld', () => {
    const message = summary.warnings[0]?.message;
    ['fundamental', 'harmonics', 'thd', 'thdPlusNoise', 'sinadDb', 'clipping'].forEach((figure) => {
      expect(reasonFor(figures, figure)).toBe(message);
    });
  });

  it(moments ? 'still has its mean and rms' : 'has no mean and rms either', () => {
    expect(figures.dc === null).toBe(!moments);
    expect(figures.rms === null).toBe(!moments);
    expect(reasonFor(figures, 'rms') === undefined).toBe(moments);
  });
});

describe('constant records', () => {
  it('have exactly their constant for mean and rms, and no noise', () => {
    const figures = only(summarise(new Float64Array(length).fill(-0.1)));
    expect(figures).toMatchObject({ dc: -0.1, rms: 0.1, noiseRms: 0 });
  });
});

describe('noise without a line', () => {
  it('is stated as noise', () => {
    const figures = only(summarise(whiteNoise(length, 0.5, 3).map((value) => value + 2)));
    // The standard deviation of 4096 values is known to 1.1 %.
    expect((figures.noiseRms ?? 0) / 0.5).toBeCloseTo(1, 1);
    expect(Math.abs((figures.dc ?? 0) - 2)).toBeLessThan(0.03);
  });
});

describe('records near the limits', () => {
  it('two cycles are enough, whatever their constant', () => {
    const { fundamental, thd } = only(
      summarise(
        sine(2).map((value) => value + 100),
        {},
        length,
      ),
    );
    // No noise: what the constant leaves of double precision.
    expect(fundamental?.frequencyHz).toBeCloseTo(2, 9);
    expect(thd?.ratio).toBeCloseTo(0.02, 9);
  });

  it('sixteen samples are enough', () => {
    const { fundamental } = only(summarise(tone(16, { frequency: 0.2, amplitudes: [1] }), {}, 1));
    expect(fundamental?.frequencyHz).toBeCloseTo(0.2, 9);
  });

  it('says which orders are left out by half the sampling rate', () => {
    const summary = summarise(sine(480));
    expect(only(summary).thd?.orders).toEqual([2, 4]);
    expect(rules(summary)).toContain('orders-left-out');
    expect(summary.warnings.map(({ message }) => message).join()).toContain('orders 2 to 4');
  });

  it('withholds harmonics, but not the fundamental, above a quarter of the sampling rate', () => {
    const summary = summarise(tone(length, { frequency: 0.3, amplitudes: [1] }));
    const figures = only(summary);
    expect(figures.fundamental?.rms).toBeCloseTo(Math.SQRT1_2, 9);
    expect(figures.thd).toBeNull();
    expect(reasonFor(figures, 'thd')).toContain('half the sampling rate');
    expect(rules(summary)).toContain('no-orders');
  });

  it('narrows the band of THD+N to what the record supports and says so', () => {
    const summary = summarise(sine(50), {}, 24_000);
    expect(only(summary).thdPlusNoise?.bandHz).toEqual([20, 12_000]);
    const short = summarise(sine(50), {}, 480_000);
    expect(only(short).thdPlusNoise?.bandHz).toEqual([480_000 / length, 20_000]);
    expect(rules(short)).toContain('band-narrowed');
  });

  it.each([[[30_000, 40_000]], [[5, 8]], [[2000, 1000]]] as [[number, number]][])(
    'withholds THD+N and SINAD where nothing is left of the band %j',
    (bandHz) => {
      const summary = summarise(sine(50), { bandHz });
      const figures = only(summary);
      expect(figures.thdPlusNoise).toBeNull();
      expect(figures.sinadDb).toBeNull();
      expect(figures.thd).not.toBeNull();
      expect(reasonFor(figures, 'sinadDb')).toBe(reasonFor(figures, 'thdPlusNoise'));
      expect(rules(summary)).toContain('band-empty');
    },
  );

  it.each([[[Number.NaN, 1000]], [[20, Number.POSITIVE_INFINITY]]] as [[number, number]][])(
    'takes the usual band for the band %j and says so',
    (bandHz) => {
      const summary = summarise(sine(50), { bandHz });
      expect(summary.settings.bandHz).toEqual([20, 20_000]);
      expect(only(summary).thdPlusNoise?.bandHz).toEqual([20, 20_000]);
      expect(rules(summary)).toContain('band-unusable');
    },
  );

  it.each([
    [1, 2],
    [2.7, 2],
    [1000, 40],
    [Number.NaN, 10],
  ])('harmonics up to order %f were asked for: fits what can be fitted and says so', (harmonics, last) => {
    const summary = summarise(sine(50), { harmonics });
    expect(only(summary).thd?.orders).toEqual([2, last]);
    expect(rules(summary)).toContain('orders-unusable');
  });

  it.each([0, -48_000, Number.NaN, Number.POSITIVE_INFINITY])('refuses a sampling rate of %f', (rateHz) => {
    const summary = summarise(sine(50), {}, rateHz);
    expect(only(summary).fundamental).toBeNull();
    expect(rules(summary)).toEqual(['sampling-rate-unusable']);
  });
});

describe('drift', () => {
  it('of frequency by a thousandth is warned of, and the uncertainties are widened', () => {
    const noise = whiteNoise(length, 0.001, 5);
    const [steady, drifting] = [summarise(sum(drift(0), noise)), summarise(sum(drift(0.001), noise))];
    expect(rules(drifting)).toContain('wandering-fundamental');
    expect(rules(steady)).not.toContain('wandering-fundamental');
    const uncertainty = (summary: WaveformSummary) => only(summary).fundamental?.frequencyUncertaintyHz ?? 0;
    expect(uncertainty(drifting)).toBeGreaterThan(3 * uncertainty(steady));
  });

  it('of the constant does not hide the sine', () => {
    const ramp = Float64Array.from({ length }, (_, n) => n / 300);
    const { fundamental } = only(summarise(sum(sine(200.3), ramp, whiteNoise(length, 0.01, 1)), {}, length));
    // A ramp of fourteen times the amplitude leaks into the fit, by some 14/(π·200) of the amplitude at a line 200
    // cycles away; the frequency moves by a similar part of a cycle per record.
    expect(Math.abs((fundamental?.frequencyHz ?? 0) - 200.3)).toBeLessThan(0.03);
  });

  it('stronger than the sine is warned of', () => {
    const slow = tone(length, { frequency: 1.1 / length, amplitudes: [5] });
    const summary = summarise(sum(sine(700.3), slow, whiteNoise(length, 0.01, 1)), {}, length);
    expect(only(summary).fundamental?.frequencyHz).toBeCloseTo(700.3, 1);
    expect(rules(summary)).toContain('stronger-slow-change');
  });
});

describe('noise above the harmonics', () => {
  const summary = summarise(
    sum(tone(length, { frequency: 0.0123, amplitudes: [1, 1e-5] }), whiteNoise(length, 0.05, 9)),
  );
  const figures = only(summary);

  it('is said, with the interval reaching from exactly 0 to what the noise allows', () => {
    expect(figures.thd?.low).toBe(0);
    expect(figures.thd?.high).toBeGreaterThan(1e-3);
    expect(figures.harmonics.every(({ detected }) => !detected)).toBe(true);
    expect(rules(summary)).toContain('harmonics-below-noise');
  });
});

describe('levels too coarse for the noise', () => {
  it('are said, with the step found', () => {
    const summary = summarise(quantise(tone(length, { frequency: 0.0123, amplitudes: [0.5] }), 1 / 128));
    // The step is read off differences of the levels, which are exact here.
    expect(only(summary).levelStep).toBe(1 / 128);
    expect(rules(summary)).toContain('coarse-levels');
  });

  it('are not claimed of a record without levels, nor where noise blurs them', () => {
    const fine = summarise(sum(sine(50), whiteNoise(length, 0.001, 2)));
    expect(only(fine).levelStep).toBeNull();
    const blurred = summarise(quantise(sum(sine(50.3), whiteNoise(length, 0.01, 2)), 1 / 128));
    expect(only(blurred).levelStep).toBe(1 / 128);
    expect([...rules(fine), ...rules(blurred)]).not.toContain('coarse-levels');
  });
});

describe('records of very few levels', () => {
  it.each([
    ['a square wave', Float64Array.from({ length }, (_, n) => (n % 64 < 32 ? 1 : -1))],
    ['a sine of two steps', quantise(tone(length, { frequency: 0.0123, amplitudes: [1.4] }), 1)],
  ])('%s: clipping is withheld, as it cannot be told from coarse levels', (_, values) => {
    const summary = summarise(values);
    expect(only(summary).clipping).toBeNull();
    expect(reasonFor(only(summary), 'clipping')).toContain('fewer than 5');
    expect(rules(summary)).toContain('few-levels');
    expect(only(summary).levelStep).toBeNull();
  });

  it('a pure sine sampled six times a cycle has evenly spaced levels and is not taken for coarse', () => {
    const summary = summarise(tone(length, { frequency: 1 / 6, amplitudes: [1] }));
    expect(only(summary).levelStep).toBeNull();
    expect(rules(summary)).not.toContain('coarse-levels');
  });
});

describe('a distorted stimulus', () => {
  const [input, output] = [
    tone(length, { frequency: 0.0123, amplitudes: [1, 0.01] }),
    tone(length, { frequency: 0.0123, amplitudes: [2, 0.03] }),
  ];
  const noise = whiteNoise(length, 1e-4, 1);

  it('is said beside the response that includes it', () => {
    const { warnings } = summariseWaveform(
      [
        { name: 'in', role: 'stimulus', unit: 'V', values: sum(input, noise) },
        { name: 'out', role: 'response', unit: 'V', values: sum(output, noise) },
      ],
      48_000,
    );
    const found = warnings.find(({ rule }) => rule === 'distorted-stimulus');
    expect(found?.channel).toBe('in');
    expect(found?.message).toContain('"out"');
  });

  it('is not said of a clean one', () => {
    const { warnings } = summariseWaveform(
      [
        {
          name: 'in',
          role: 'stimulus',
          unit: 'V',
          values: sum(tone(length, { frequency: 0.0123, amplitudes: [1] }), noise),
        },
        { name: 'out', role: 'response', unit: 'V', values: sum(output, noise) },
      ],
      48_000,
    );
    expect(warnings.map(({ rule }) => rule)).not.toContain('distorted-stimulus');
  });
});

describe('samples of any size', () => {
  it.each([1e-300, 1e-200, 1e150, 1e300])(
    'times %f give the same ratios and nothing that is no number',
    (factor) => {
      const plain = only(summarise(sum(sine(50.3), whiteNoise(length, 0.001, 1))));
      const sized = only(
        summarise(sum(sine(50.3), whiteNoise(length, 0.001, 1)).map((value) => value * factor)),
      );
      // One rounding for each sample.
      expect(sized.thd?.ratio).toBeCloseTo(plain.thd?.ratio ?? 0, 12);
      expect(sized.sinadDb).toBeCloseTo(plain.sinadDb ?? 0, 9);
      expect((sized.fundamental?.rms ?? 0) / factor).toBeCloseTo(plain.fundamental?.rms ?? 0, 12);
      expect((sized.noiseRms ?? 0) / factor).toBeCloseTo(plain.noiseRms ?? 0, 12);
      expect(notFinite(sized)).toEqual([]);
    },
  );
});

/** Paths of numbers that are not finite. */
function notFinite(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) => notFinite(inner, `${path}.${key}`));
}

describe('no summary holds NaN or infinity', () => {
  it.each(refused)('$name', ({ values }) => {
    expect(notFinite(summarise(values))).toEqual([]);
  });
});
