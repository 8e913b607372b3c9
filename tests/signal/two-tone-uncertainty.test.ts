import { describe, expect, it } from 'vitest';
import type { TwoToneChannelSummary } from '../../src/signal/index.ts';
import { quantise, uniform } from './signals.ts';
import { figuresOf, noisy, rateHz, type TwoTones, twoTones } from './two-tones.ts';

/** Records for each condition; seeds are fixed, so that every run sees the same ones. */
const runs = 200;
/** Three standard deviations of the share of 200 records, where 95 % and 5 % are meant. */
const leastCoverage = 0.904;
const mostFalseAlarms = 0.096;

type Figures = Record<string, { low: number; high: number } | null | undefined>;

interface Condition {
  name: string;
  tones: TwoTones;
  curve: (x: number) => number;
  sigma: number;
  truth: Record<string, number>;
  figures: (summary: TwoToneChannelSummary) => Figures;
}

const modulation = ({ modulation: found }: TwoToneChannelSummary): Figures => ({ ...found });
const difference = ({ differenceFrequency: found }: TwoToneChannelSummary): Figures => ({ ...found });
const none = { second: 0, third: 0 };
const straight = (x: number) => x;
const fourToOne: TwoTones = { length: 4096, frequencies: [0.0031, 0.1511], amplitudes: [0.8, 0.2] };
const equal: TwoTones = { length: 4096, frequencies: [0.2011, 0.2123], amplitudes: [0.5, 0.5] };

/** Closed forms of y = x + k2·x² + k3·x³ for cosines of amplitudes L and H (product formulas). */
function modulationTruth(k2: number, k3: number) {
  const [low, high] = fourToOne.amplitudes;
  const carrier = high + 0.75 * k3 * high ** 3 + 1.5 * k3 * high * low ** 2;
  const second = (2 * k2 * low * high) / carrier;
  const third = (2 * 0.75 * k3 * high * low ** 2) / carrier;
  return {
    second,
    third,
    total: Math.hypot(second, third),
    sidebands: Math.hypot(second, third) / Math.SQRT2,
  };
}

function differenceTruth(k2: number, k3: number) {
  const [amplitude] = equal.amplitudes;
  const each = amplitude + 2.25 * k3 * amplitude ** 3;
  const second = (k2 * amplitude ** 2) / (2 * each);
  const third = (1.5 * k3 * amplitude ** 3) / (2 * each);
  return { second, secondOneTone: 2 * second, third, thirdRss: third / Math.SQRT2 };
}

const curve = (k2: number, k3: number) => (x: number) => x + k2 * x ** 2 + k3 * x ** 3;

const conditions: Condition[] = [
  {
    ...{ name: 'two pure tones, 4 to 1', tones: fourToOne, curve: straight, sigma: 0.003 },
    ...{ truth: { ...none, total: 0, sidebands: 0 }, figures: modulation },
  },
  {
    ...{ name: 'two equal pure tones', tones: equal, curve: straight, sigma: 0.003 },
    ...{ truth: { ...none, secondOneTone: 0, thirdRss: 0 }, figures: difference },
  },
  {
    ...{
      name: 'sidebands of the size of the noise',
      tones: fourToOne,
      curve: curve(4e-4, 1e-3),
      sigma: 0.003,
    },
    ...{ truth: modulationTruth(4e-4, 1e-3), figures: modulation },
  },
  {
    ...{ name: 'strong sidebands', tones: fourToOne, curve: curve(0.02, 0.02), sigma: 0.003 },
    ...{ truth: modulationTruth(0.02, 0.02), figures: modulation },
  },
  {
    ...{ name: 'lines of two equal tones', tones: equal, curve: curve(0.002, 0.004), sigma: 0.003 },
    ...{ truth: differenceTruth(0.002, 0.004), figures: difference },
  },
];

/** The tones of a condition with phases and frequencies of their own. */
function tonesOf({ tones }: Condition, seed: number): TwoTones {
  const next = uniform(seed);
  const phases = [2 * Math.PI * next(), 2 * Math.PI * next()] as const;
  const shift = next() / tones.length;
  const [lower, upper] = tones.frequencies;
  return { ...tones, frequencies: [lower + shift, upper - shift / 3], phases };
}

/** One record of a condition. */
function recordOf(condition: Condition, seed: number): TwoToneChannelSummary {
  return figuresOf(noisy(twoTones(tonesOf(condition, seed), condition.curve), condition.sigma, seed));
}

describe.each(conditions)('$name', (condition) => {
  const records = Array.from({ length: runs }, (_, i) => recordOf(condition, 1000 + i));

  it.each(Object.entries(condition.truth))(
    'the interval of %s holds the truth in 95 % of records',
    (name, truth) => {
      const inside = records.filter((record) => {
        const figure = condition.figures(record)[name];
        return figure && figure.low <= truth && truth <= figure.high;
      });
      expect(inside.length / runs).toBeGreaterThanOrEqual(leastCoverage);
    },
  );
});

const pure = conditions.filter(({ curve: law }) => law === straight);

describe.each(pure)('the tones of $name', (condition) => {
  const seeds = Array.from({ length: runs }, (_, i) => 3000 + i);

  it.each(['lower', 'upper'] as const)(
    '%s: frequency and level lie within their intervals in 95 % of records',
    (which) => {
      const at = which === 'lower' ? 0 : 1;
      const found = seeds.map((seed) => ({
        tone: recordOf(condition, seed).tones?.[which],
        trueHz: tonesOf(condition, seed).frequencies[at] * rateHz,
        trueRms: condition.tones.amplitudes[at] / Math.SQRT2,
      }));
      const share = (within: (one: (typeof found)[number]) => boolean) => found.filter(within).length / runs;
      const frequency = share(
        ({ tone, trueHz }) =>
          tone !== undefined &&
          Math.abs(tone.frequencyHz - trueHz) <= tone.coverageFactor * tone.frequencyUncertaintyHz,
      );
      const level = share(
        ({ tone, trueRms }) =>
          tone !== undefined && Math.abs(tone.rms - trueRms) <= tone.coverageFactor * tone.rmsUncertainty,
      );
      expect(frequency).toBeGreaterThanOrEqual(leastCoverage);
      expect(level).toBeGreaterThanOrEqual(leastCoverage);
    },
  );
});

describe('noise alone', () => {
  it.each(pure)('marks a line of $name in 5 % of records', (condition) => {
    const marked = Array.from({ length: runs }, (_, i) => recordOf(condition, 5000 + i)).filter(
      ({ products, harmonics }) => [...products, ...harmonics].some(({ detected }) => detected),
    );
    expect(marked.length / runs).toBeLessThanOrEqual(mostFalseAlarms);
  });

  it('of rounding to levels marks no more either, even where the record repeats and no other noise blurs it', () => {
    // Both tones have whole cycles and a period of 256 samples, which stands 16 times in the record.
    const tones: TwoTones = { length: 4096, frequencies: [48 / 256, 53 / 256], amplitudes: [40, 40] };
    const records = Array.from({ length: runs }, (_, i) => {
      const next = uniform(9000 + i);
      const phases = [2 * Math.PI * next(), 2 * Math.PI * next()] as const;
      return figuresOf(quantise(twoTones({ ...tones, phases }), 1));
    });
    const marked = records.filter(({ products }) => products.some(({ detected }) => detected));
    expect(marked.length / runs).toBeLessThanOrEqual(mostFalseAlarms);
  });
});
