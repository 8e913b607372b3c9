import { describe, expect, it } from 'vitest';
import { normalSource } from '../../src/demo/random.ts';
import { type Figure, scatterText, summariseRepeats } from '../../src/figures/index.ts';
import { check, checkList } from '../signal/checks.ts';
import { binomialRange } from '../simulation/binomial.ts';
import { figureOf, withNoise } from './measured.ts';

const context = { file: 'logs/first/index.md', between: 'leads off and on' };

/** Repeats of one figure each. */
function repeatsOf(figures: readonly Figure[]) {
  const members = figures.map((figure, i) => ({ name: `tone-${i + 1}`, figures: [figure] }));
  return summariseRepeats(members, context);
}

/** The one figure that readings of a level in volts have in common. */
function levelsOf(values: readonly number[], members: Partial<Figure> = {}) {
  const figures = values.map((value) => figureOf('fundamental-level', value, { unit: 'V', ...members }));
  const [one] = repeatsOf(figures).repeated;
  if (!one) throw new Error('no repeated figure');
  return one;
}

const halfOf = ({ figure: { low = Number.NaN, high = Number.NaN } }: { figure: Figure }) => (high - low) / 2;

describe('summariseRepeats on the examples of the GUM (JCGM 100:2008)', () => {
  it('gives mean, standard deviation and interval of the twenty temperatures of 4.4.3 (data from memory)', () => {
    const one = levelsOf(checkList('repeats', 'GUM 4.4.3: temperatures'));
    const ofMean = check('repeats', 'GUM 4.4.3: standard deviation of the mean');
    expect(one.count).toBe(20);
    // Rounding of two-decimal readings about 100.
    expect(Math.abs((one.figure.value ?? 0) - check('repeats', 'GUM 4.4.3: mean'))).toBeLessThan(1e-12);
    expect(Math.abs(one.standardDeviation - check('repeats', 'GUM 4.4.3: standard deviation'))).toBeLessThan(
      1e-12,
    );
    expect(Math.abs((one.figure.random ?? 0) - ofMean)).toBeLessThan(1e-12);
    // t₉₅(19) = 2.093 of table G.2; its approximation is good to 0.2 %.
    expect(Math.abs(halfOf(one) / (2.093024 * ofMean) - 1)).toBeLessThan(2e-3);
  });

  it('gives the means of table H.2 with their standard deviations', () => {
    const means = checkList('repeats', 'GUM H.2: means');
    const deviations = checkList('repeats', 'GUM H.2: standard deviations of the means');
    ['voltages in V', 'currents in mA', 'phases in rad'].forEach((quantity, i) => {
      const one = levelsOf(checkList('repeats', `GUM H.2: ${quantity}`));
      // Eight digits are given.
      expect(Math.abs((one.figure.value ?? 0) / (means[i] ?? 0) - 1)).toBeLessThan(1e-7);
      expect(Math.abs((one.figure.random ?? 0) / (deviations[i] ?? 0) - 1)).toBeLessThan(1e-7);
    });
  });

  it('adds what the instrument states, which repeating does not lower', () => {
    const values = [1, 2, 3, 4, 5];
    const together = levelsOf(values, { systematic: 2 });
    // s = √2.5, so u_A = √0.5, times t₉₅(4) = 2.776 of table G.2 (to 0.2 %), and the normal 1.96 times 2.
    expect(Math.abs(halfOf(levelsOf(values)) / (2.776445 * Math.sqrt(0.5)) - 1)).toBeLessThan(2e-3);
    expect(Math.abs(halfOf(together) / Math.hypot(2.776445 * Math.sqrt(0.5), 3.919928) - 1)).toBeLessThan(
      1e-3,
    );
    expect(together.figure.systematic).toBe(2);
  });
});

describe('summariseRepeats', () => {
  it('says where the mean comes from and keeps the conditions', () => {
    const { figure } = levelsOf([1, 2], { conditions: { level: '1 W' }, subject: 'speaker' });
    expect(figure).toMatchObject({ id: 'fundamental-level', unit: 'V', subject: 'speaker' });
    expect(figure.conditions).toEqual({ level: '1 W' });
    expect(figure.provenance).toEqual({
      ...{ file: context.file, sha256: null, lines: null, method: 'repeats' },
      settings: { Captures: 'tone-1, tone-2', 'Done anew between them': 'leads off and on' },
    });
  });

  it('averages decibels as decibels', () => {
    const figures = [0, -10].map((value) => figureOf('sinad', value, { unit: 'dB' }));
    // Exact; the mean of the powers would be −2.596 dB.
    expect(repeatsOf(figures).repeated[0]?.figure.value).toBe(-5);
  });

  it('averages angles around the circle', () => {
    const figures = [179, -179, -177].map((value) => figureOf('phase-at-fundamental', value, { unit: '°' }));
    const [one] = repeatsOf(figures).repeated;
    // 179, 181 and 183 degrees; rounding only.
    expect(Math.abs((one?.figure.value ?? 0) + 179)).toBeLessThan(1e-9);
    expect(Math.abs((one?.standardDeviation ?? 0) - 2)).toBeLessThan(1e-9);
  });

  it('lists figures that a capture lacks, with the reason, and figures that it does not have at all', () => {
    const members = [
      { name: 'a', figures: [figureOf('thd', 0.01), figureOf('hum', null, { absent: 'Too short.' })] },
      { name: 'b', figures: [figureOf('thd', 0.02), figureOf('noise', 1, { subject: 'grid' })] },
    ];
    const { repeated, unrepeated } = summariseRepeats(members, context);
    expect(repeated.map(({ figure }) => figure.id)).toEqual(['thd']);
    const none = 'The capture does not give this figure.';
    expect(unrepeated).toEqual([
      {
        id: 'hum',
        lacking: [
          { capture: 'a', reason: 'Too short.' },
          { capture: 'b', reason: none },
        ],
      },
      { id: 'noise', subject: 'grid', lacking: [{ capture: 'a', reason: none }] },
    ]);
  });

  it('keeps channels apart', () => {
    const figures = ['grid', 'load'].map((subject, i) => figureOf('thd', 0.01 * (i + 1), { subject }));
    const { repeated } = summariseRepeats(
      ['a', 'b'].map((name) => ({ name, figures })),
      context,
    );
    expect(repeated.map(({ figure: { subject, value } }) => [subject, value])).toEqual([
      ['grid', 0.01],
      ['load', 0.02],
    ]);
  });

  it('begins the interval of a ratio at zero where one of the readings may be noise', () => {
    const clear = withNoise('thd', 0.003, 0.0001);
    const noisy = figureOf('thd', 0.003, { low: 0, high: 0.004, remark: 'not told from noise' });
    const [one] = repeatsOf([clear, withNoise('thd', 0.0031, 0.0001), noisy]).repeated;
    expect(one?.figure).toMatchObject({ low: 0, remark: 'not told from noise in 1 of 3' });
    expect(one?.scattersMore).toBeNull();
    expect(one && scatterText(one)).toBe('The records do not say how far noise goes.');
  });

  it('keeps a remark that all captures share', () => {
    expect(levelsOf([1, 2], { remark: 'into 8 Ω' }).figure.remark).toBe('into 8 Ω');
  });

  it('never lets the interval of a ratio go below nothing, but that of a level that may be negative', () => {
    const ratios = [0.001, 0.009].map((value) => withNoise('thd', value, 0.0001));
    expect(repeatsOf(ratios).repeated[0]?.figure.low).toBe(0);
    const direct = [0.001, 0.009].map((value) => figureOf('dc', value, { unit: 'V' }));
    expect(repeatsOf(direct).repeated[0]?.figure.low).toBeLessThan(0);
  });

  it('gives no interval where all readings are alike, and says so', () => {
    const { figure, standardDeviation } = levelsOf([2, 2, 2]);
    expect(standardDeviation).toBe(0);
    expect(figure).toMatchObject({ value: 2, remark: 'all readings alike to their last digit' });
    expect(figure).not.toHaveProperty('low');
  });

  it('tells scatter of the set-up from that of noise', () => {
    const scattered = (spread: number) =>
      repeatsOf([-1, 0, 1].map((step) => withNoise('thd', 0.01 + step * spread, 0.0001))).repeated[0];
    // Two degrees of freedom: s²·2/u² = 5.99 at 5 %, so s/u = 1.731; 1.7 and 1.76 lie on either side.
    expect(scattered(0.00017)?.scattersMore).toBe(false);
    expect(scattered(0.000176)?.scattersMore).toBe(true);
    const [within, beyond] = [scattered(0.00005), scattered(0.001)];
    expect(within && scatterText(within)).toBe(
      'Nothing beyond noise: 0.50 times what the records’ noise gives.',
    );
    expect(beyond && scatterText(beyond)).toBe(
      'The set-up, not the noise: 10 times what the records’ noise gives.',
    );
  });

  it('takes the noise of a record without what the instrument adds', () => {
    const members = { systematic: 0.01, random: 0.0001 };
    const figures = [-1, 0, 1].map((step) => withNoise('thd', 0.1 + 0.001 * step, 0.01, members));
    const [one] = repeatsOf(figures).repeated;
    // Rounding only.
    expect(Math.abs((one?.recordUncertainty ?? 0) - 0.0001)).toBeLessThan(1e-12);
    expect(one?.scattersMore).toBe(true);
  });
});

describe('the interval of a mean, simulated', () => {
  const draws = 5000;

  /** How often the interval of some readings about 10 V holds the truth. */
  function held(readings: number, systematic: number): number {
    const normal = normalSource(17);
    let count = 0;
    for (let i = 0; i < draws; i++) {
      const offset = 10 + systematic * normal();
      const values = Array.from({ length: readings }, () => offset + normal());
      const { low = 0, high = 0 } = levelsOf(values, systematic > 0 ? { systematic } : {}).figure;
      if (low <= 10 && 10 <= high) count++;
    }
    return count;
  }

  it('holds the truth in 95 % of 5,000 draws of three normal readings', () => {
    // The binomial range of 99.9 %.
    const { least, most } = binomialRange(draws, 0.95);
    const count = held(3, 0);
    expect(count).toBeGreaterThanOrEqual(least);
    expect(count).toBeLessThanOrEqual(most);
  });

  it.each([
    [2, 0.3],
    [3, 0.1],
    [3, 0.3],
    [3, 1],
    [5, 0.6],
    [5, 3],
  ])(
    'holds it in 95 %% at least with %s readings and an instrument that adds %s of the scatter',
    (n, share) => {
      // Half widths added as squares are on the cautious side; the lower binomial bound of 99.9 %.
      expect(held(n, share)).toBeGreaterThanOrEqual(binomialRange(draws, 0.95).least);
    },
  );
});
