import { describe, expect, it } from 'vitest';
import { type ChannelSummary, summariseWaveform } from '../../src/signal/index.ts';
import { channel, pinkNoise, quantise, redNoise, sum, tone, uniform, whiteNoise } from './signals.ts';

/** Records for each condition; seeds are fixed, so that every run sees the same ones. */
const runs = 200;
/** Three standard deviations of the share of 200 records, where 95 % and 5 % are meant. */
const leastCoverage = 0.904;
const mostFalseAlarms = 0.096;

interface Condition {
  name: string;
  length: number;
  /** Cycles in the record, from a number in [0, 1). */
  cycles: (share: number) => number;
  /** Peak amplitudes of the orders; the first is the fundamental. */
  amplitudes: readonly number[];
  /** Everything that is added or done to the pure record. */
  spoil: (record: Float64Array, seed: number, next: () => number) => Float64Array;
  orders?: number;
}

const withWhite = (sigma: number) => (record: Float64Array, seed: number) =>
  sum(record, whiteNoise(record.length, sigma, seed));
const withPink = (sigma: number) => (record: Float64Array, seed: number) =>
  sum(record, pinkNoise(record.length, sigma, seed));

function withHum(record: Float64Array, seed: number, next: () => number): Float64Array {
  const hum = tone(record.length, {
    frequency: (3 + next()) / record.length,
    amplitudes: [0.05, 0.02, 0.03],
  });
  return sum(record, hum, whiteNoise(record.length, 0.003, seed));
}

const inCodes = (sigma: number) => (record: Float64Array, seed: number, next: () => number) => {
  const place = next();
  const noisy = sigma > 0 ? withWhite(sigma)(record, seed) : record;
  return quantise(
    noisy.map((value) => value + place),
    1,
  );
};

const many = (share: number) => 40 + 20 * share;
const five = (share: number) => 4.7 + 0.6 * share;

const white: Condition = {
  name: 'a pure sine in white noise',
  length: 2048,
  cycles: many,
  amplitudes: [1],
  spoil: withWhite(0.01),
};
const sloping: Condition = { ...white, name: 'a pure sine in 1/f noise', spoil: withPink(0.003) };

/** The corner is at three cycles per record, far below the fundamental. */
const steep: Condition = {
  ...white,
  name: 'a pure sine in 1/f² noise',
  spoil: (record, seed) => sum(record, redNoise(record.length, 0.05, 0.99, seed)),
};

const conditions: Condition[] = [
  white,
  sloping,
  steep,
  {
    name: 'a pure sine of five cycles in white noise',
    length: 2500,
    cycles: five,
    amplitudes: [1],
    spoil: withWhite(0.01),
  },
  {
    name: 'a pure sine of little more than two cycles',
    length: 1000,
    cycles: (u) => 2.05 + 0.6 * u,
    amplitudes: [1],
    spoil: withWhite(0.01),
  },
  {
    name: 'a pure sine in much noise',
    length: 3000,
    cycles: (u) => 300 + 3 * u,
    amplitudes: [1],
    spoil: withWhite(0.1),
    orders: 4,
  },
  {
    name: 'a second harmonic the size of the noise',
    length: 2048,
    cycles: many,
    amplitudes: [1, 0.0005],
    spoil: withWhite(0.01),
  },
  {
    name: 'a second harmonic three times the noise',
    length: 2048,
    cycles: many,
    amplitudes: [1, 0.001],
    spoil: withWhite(0.01),
  },
  {
    name: 'strong second and third harmonics',
    length: 2048,
    cycles: many,
    amplitudes: [1, 0.02, 0.01],
    spoil: withWhite(0.01),
  },
  {
    name: 'nine harmonics, each below detection',
    length: 2048,
    cycles: many,
    amplitudes: [1, ...Array.from({ length: 9 }, () => 0.0007)],
    spoil: withWhite(0.01),
  },
  {
    name: 'two cycles with harmonics',
    length: 1000,
    cycles: (u) => 2.05 + 0.6 * u,
    amplitudes: [1, 0.003, 0.002],
    spoil: withWhite(0.01),
  },
  {
    name: 'five cycles with harmonics in 1/f noise',
    length: 2500,
    cycles: five,
    amplitudes: [1, 0.003, 0.002],
    spoil: withPink(0.003),
  },
  {
    name: 'a second harmonic beside hum',
    length: 2048,
    cycles: many,
    amplitudes: [1, 0.001],
    spoil: withHum,
  },
  {
    name: 'harmonics above the highest one fitted',
    length: 2500,
    cycles: five,
    amplitudes: [1, 0, 0.003, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0.004, 0, 0.003],
    spoil: withWhite(0.001),
  },
  {
    name: 'a sine in 8-bit codes without noise',
    length: 2500,
    cycles: five,
    amplitudes: [100.7],
    spoil: inCodes(0),
  },
  {
    name: 'a sine in 8-bit codes, many cycles, without noise',
    length: 2048,
    cycles: many,
    amplitudes: [60.3],
    spoil: inCodes(0),
  },
  {
    name: 'a sine in 8-bit codes with noise of a tenth of a step',
    length: 2500,
    cycles: five,
    amplitudes: [100.7],
    spoil: inCodes(0.1),
  },
  {
    name: 'harmonics in 8-bit codes with noise of a third of a step',
    length: 2500,
    cycles: five,
    amplitudes: [100.7, 0.5, 0.3],
    spoil: inCodes(0.3),
  },
];

interface Trial {
  summary: ChannelSummary;
  frequency: number;
}

const known = new Map<Condition, Trial[]>();

function trials(condition: Condition): Trial[] {
  const done = known.get(condition) ?? measured(condition);
  known.set(condition, done);
  return done;
}

function measured({ length, cycles, amplitudes, spoil, orders = 10 }: Condition): Trial[] {
  return Array.from({ length: runs }, (_, run) => {
    const next = uniform(7919 * run + 1);
    const frequency = cycles(next()) / length;
    const phases = amplitudes.map(() => 2 * Math.PI * next());
    const record = spoil(
      tone(length, { frequency, amplitudes, phases, dc: next() }),
      104_729 * run + 5,
      next,
    );
    const [summary] = summariseWaveform([channel(record)], 1, { harmonics: orders, bandHz: [0, 1] }).channels;
    if (!summary) throw new Error('no channel');
    return { summary, frequency };
  });
}

const share = (of: readonly Trial[], holds: (trial: Trial) => boolean) => of.filter(holds).length / of.length;

describe.each(conditions)('$name, in 200 records', (condition) => {
  const done = trials(condition);
  const { amplitudes, orders = 10 } = condition;
  const [fundamental = 1] = amplitudes;
  const truth = Math.hypot(...amplitudes.slice(1, orders)) / fundamental;

  it('always has a fundamental and a THD', () => {
    expect(share(done, ({ summary }) => summary.fundamental !== null && summary.thd !== null)).toBe(1);
  });

  it('has the true THD within the 95 % interval as often as that', () => {
    const covered = share(
      done,
      ({ summary: { thd } }) => thd !== null && thd.low <= truth && truth <= thd.high,
    );
    expect(covered).toBeGreaterThanOrEqual(leastCoverage);
  });

  it('takes noise for a harmonic in no more than 5 % of the records', () => {
    const falsely = ({ summary }: Trial) =>
      summary.harmonics.some(({ order, detected }) => detected && (amplitudes[order - 1] ?? 0) === 0);
    expect(share(done, falsely)).toBeLessThanOrEqual(mostFalseAlarms);
  });
});

describe('noise alone never reads as distortion', () => {
  const pure = conditions.filter(({ amplitudes }) => amplitudes.length === 1);

  it.each(pure)('$name: the low end is exactly 0', (condition) => {
    const done = trials(condition);
    // 97.5 % are meant; 200 records know a share to 1.1 %.
    expect(share(done, ({ summary }) => summary.thd?.low === 0)).toBeGreaterThanOrEqual(0.93);
    // The interval never promises that there is no distortion at all.
    expect(share(done, ({ summary }) => (summary.thd?.high ?? 0) > 0)).toBe(1);
  });
});

/** Root mean square of errors re their stated uncertainty. */
function spreadOf(done: readonly Trial[], score: (trial: Trial) => number): number {
  return Math.sqrt(done.reduce((sum, trial) => sum + score(trial) ** 2, 0) / done.length);
}

describe('stated uncertainties', () => {
  const frequencyScore = ({ summary, frequency }: Trial) =>
    ((summary.fundamental?.frequencyHz ?? 0) - frequency) /
    (summary.fundamental?.frequencyUncertaintyHz ?? 1);
  const levelScore = ({ summary }: Trial) =>
    ((summary.fundamental?.rms ?? 0) - Math.SQRT1_2) / (summary.fundamental?.rmsUncertainty ?? 1);
  /** The third harmonic is absent here, so its ratio is noise of twice one component's variance. */
  const harmonicScore = ({ summary }: Trial) => {
    const third = summary.harmonics.find(({ order }) => order === 3);
    return (third?.ratio ?? 0) / ((third?.uncertainty ?? 1) * Math.SQRT2);
  };

  it('are the actual spread of frequency, level and harmonics in white noise', () => {
    const done = trials(white);
    // The spread of 200 values is known to 5 %, and the noise of each record from some 32 lines to 9 % more.
    [frequencyScore, levelScore, harmonicScore].forEach((score) => {
      expect(Math.abs(spreadOf(done, score) - 1)).toBeLessThan(0.15);
    });
  });

  it('are the white-noise formula σ·√(2/N) where the residual is white', () => {
    const done = trials(white);
    const expected = 0.01 * Math.sqrt(2 / 2048);
    const mean = done.reduce((sum, { summary }) => sum + (summary.harmonics[1]?.uncertainty ?? 0), 0) / runs;
    // A median of some 32 lines is 1.5 % high in the mean, and scatters.
    expect(mean / expected).toBeGreaterThan(0.95);
    expect(mean / expected).toBeLessThan(1.08);
  });

  it('follow the density where the residual is not white', () => {
    // As above; the white-noise formula on the residual's rms makes the noise at the third harmonic more than twice too large.
    expect(Math.abs(spreadOf(trials(sloping), harmonicScore) - 1)).toBeLessThan(0.15);
    expect(Math.abs(spreadOf(trials(steep), harmonicScore) - 1)).toBeLessThan(0.15);
    const naive = ({ summary }: Trial) =>
      (summary.harmonics[1]?.ratio ?? 0) / ((summary.noiseRms ?? 1) * Math.sqrt(2 / 2048) * Math.SQRT2);
    expect(spreadOf(trials(steep), naive)).toBeLessThan(0.45);
  });
});
