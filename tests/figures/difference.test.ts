import { describe, expect, it, test } from 'vitest';
import { normalSource } from '../../src/demo/random.ts';
import {
  type Figure,
  figureDifference,
  type KnownScatter,
  type Measured,
  repeatedMeasured,
  scatterBasis,
  singleMeasured,
  summariseRepeats,
  type Verdict,
  verdictText,
} from '../../src/figures/index.ts';
import { binomialRange } from '../simulation/binomial.ts';
import { figureOf, withNoise } from './measured.ts';

/** A single capture with 0.01 % of noise, one sigma. */
const single = (percent: number): Measured => singleMeasured(withNoise('thd', percent / 100, 0.0001));
const without = (percent: number): Measured => singleMeasured(figureOf('thd', percent / 100));
const noisy = (percent: number): Measured =>
  singleMeasured(figureOf('thd', percent / 100, { low: 0, high: (2 * percent) / 100 }));
const missing = singleMeasured(figureOf('thd', null, { absent: 'No fundamental.' }));

/** Repeats with these readings in per cent. */
function repeats(...percents: number[]): Measured {
  const members = percents.map((percent, i) => ({
    name: `${i}`,
    figures: [withNoise('thd', percent / 100, 0.0001)],
  }));
  const [one] = summariseRepeats(members, { file: 'index.md', between: 'leads off and on' }).repeated;
  if (!one) throw new Error('no repeated figure');
  return repeatedMeasured(one);
}

/** Repeats about a value that scatter by 0.05 %: by t of two degrees, alone good to 0.25 % for one more capture. */
const three = (percent: number) => repeats(percent - 0.05, percent, percent + 0.05);
const alike = (percent: number) => repeats(percent, percent, percent);

const repeated = 'three repeats';
const table: [first: string, second: string, Measured, Measured, Verdict, KnownScatter][] = [
  [repeated, 'three others far below', three(2), three(1), 'lower', 'both'],
  [repeated, 'three others far above', three(1), three(2), 'higher', 'both'],
  [repeated, 'three others as near as they scatter', three(1), three(1.05), 'cannot be told apart', 'both'],
  [repeated, 'one capture far below', three(2), single(1), 'lower', 'first'],
  [repeated, 'one capture far above', three(1), single(2), 'higher', 'first'],
  [
    repeated,
    'one capture beyond its noise, within the scatter',
    three(1),
    single(1.2),
    'cannot be told apart',
    'first',
  ],
  ['one capture', 'three repeats far below', single(2), three(1), 'lower', 'second'],
  [
    'one capture',
    'three repeats within the scatter',
    single(1.2),
    three(1),
    'cannot be told apart',
    'second',
  ],
  [
    'one capture',
    'another beyond both noises',
    single(1),
    single(1.2),
    'different in these captures',
    'neither',
  ],
  [
    'one capture',
    'another below both noises',
    single(1.2),
    single(1),
    'different in these captures',
    'neither',
  ],
  ['one capture', 'another within their noise', single(1), single(1.03), 'cannot be told apart', 'neither'],
  [
    'one capture',
    'one without an interval, far off',
    single(1),
    without(9),
    'cannot be told apart',
    'neither',
  ],
  ['one without an interval', 'three repeats far below', without(9), three(1), 'lower', 'second'],
  [
    'one that noise may have made',
    'another clear of it',
    noisy(1),
    single(3),
    'different in these captures',
    'neither',
  ],
  [
    'one that noise may have made',
    'another within its interval',
    noisy(1),
    single(1.5),
    'cannot be told apart',
    'neither',
  ],
  [
    'one that noise may have made',
    'repeats within its interval',
    noisy(1),
    three(1.7),
    'cannot be told apart',
    'second',
  ],
  ['one that noise may have made', 'repeats clear of it', noisy(1), three(3), 'higher', 'second'],
  [
    'repeats that are all alike',
    'one capture far off',
    alike(1),
    single(2),
    'cannot be told apart',
    'neither',
  ],
  ['a figure that does not exist', 'one capture', missing, single(1), 'no data', 'neither'],
  [repeated, 'a figure that does not exist', three(1), missing, 'no data', 'first'],
];

describe('figureDifference', () => {
  test.each(table)('%s and %s', (_first, _second, first, second, verdict, scatter) => {
    expect(figureDifference(first, second)).toMatchObject({ verdict, scatter });
  });

  it.each(table)('says the mirrored of %s and %s the other way round', (_first, _second, first, second) => {
    const mirrored: Partial<Record<Verdict, Verdict>> = { lower: 'higher', higher: 'lower' };
    const { verdict } = figureDifference(first, second);
    expect(figureDifference(second, first).verdict).toBe(mirrored[verdict] ?? verdict);
  });

  it('gives the second less the first with the Welch interval of two scatters', () => {
    const { value, low = 0, high = 0 } = figureDifference(three(2), three(1));
    // Rounding only; s = 0.05 % and n = 3 on both sides: u = s·√(2/3) with 4 degrees, t₉₅(4) = 2.776 to 0.2 %.
    expect(Math.abs((value ?? 0) + 0.01)).toBeLessThan(1e-12);
    expect(Math.abs((high - low) / 2 / (2.776445 * 0.0005 * Math.sqrt(2 / 3)) - 1)).toBeLessThan(2e-3);
  });

  it('gives one scatter for both sides its own degrees of freedom, once', () => {
    const { low = 0, high = 0 } = figureDifference(three(2), single(1));
    // u = s·√(1 + 1/3) with 2 degrees: t₉₅(2) = 4.302653, exact.
    expect(Math.abs((high - low) / 2 / (4.302652729911275 * 0.0005 * Math.sqrt(4 / 3)) - 1)).toBeLessThan(
      1e-9,
    );
  });

  it('takes a single capture for no better than its own record says', () => {
    const rough = singleMeasured(withNoise('thd', 0.01, 0.002));
    const { low = 0, high = 0 } = figureDifference(three(2), rough);
    const standard = Math.hypot(0.0005 / Math.sqrt(3), 0.002);
    expect(Math.abs((high - low) / 2 / (4.302652729911275 * standard) - 1)).toBeLessThan(1e-9);
  });

  it('adds what the instruments state on both sides, so that repeats alone do not tell them apart', () => {
    const stated = (side: Measured): Measured => ({ ...side, figure: { ...side.figure, systematic: 0.005 } });
    expect(figureDifference(three(1), three(2)).verdict).toBe('higher');
    expect(figureDifference(stated(three(1)), stated(three(2))).verdict).toBe('cannot be told apart');
  });

  it('gives decibels of ratios that are told from noise, and of nothing else', () => {
    // 20 lg 2, exact but for rounding.
    expect(Math.abs((figureDifference(single(1), single(2)).decibels ?? 0) - 6.020599913279624)).toBeLessThan(
      1e-9,
    );
    expect(figureDifference(noisy(1), single(2)).decibels).toBeNull();
    const level = (value: number) => singleMeasured(figureOf('fundamental-level', value, { unit: 'V' }));
    expect(figureDifference(level(1), level(2)).decibels).toBeNull();
  });

  it('takes the short way between two angles', () => {
    const angle = (value: number) => singleMeasured(figureOf('phase-at-fundamental', value, { unit: '°' }));
    expect(figureDifference(angle(179), angle(-179)).value).toBe(2);
  });

  it('says why there is no value', () => {
    expect(figureDifference(single(1), missing)).toMatchObject({ value: null, absent: 'No fundamental.' });
  });
});

describe('differences that are not there, simulated', () => {
  const draws = 5000;

  /** How often two sides of one truth are called lower or higher; a side of one reading is a single capture. */
  function told(first: number, second: number): number {
    const normal = normalSource(23);
    const figures = (count: number): Figure[] =>
      Array.from({ length: count }, () => figureOf('fundamental-level', 10 + normal(), { unit: 'V' }));
    const side = (count: number): Measured => {
      const members = figures(count).map((figure, i) => ({ name: `${i}`, figures: [figure] }));
      const [one] = summariseRepeats(members, { file: '', between: '' }).repeated;
      return one && count > 1
        ? repeatedMeasured(one)
        : singleMeasured(figureOf('fundamental-level', 10 + normal()));
    };
    let count = 0;
    for (let i = 0; i < draws; i++) {
      const { verdict } = figureDifference(side(first), side(second));
      if (verdict === 'lower' || verdict === 'higher') count++;
    }
    return count;
  }

  it('are called lower or higher in 5 % where the scatter of one side holds for both', () => {
    // Exact theory (two-sample t); the binomial range of 99.9 %.
    const { least, most } = binomialRange(draws, 0.05);
    const count = told(3, 1);
    expect(count).toBeGreaterThanOrEqual(least);
    expect(count).toBeLessThanOrEqual(most);
  });

  it.each([
    [3, 3],
    [2, 2],
    [5, 3],
  ])('are called lower or higher in 5 %% at most with %s and %s repeats', (first, second) => {
    // Welch's degrees of freedom are on the cautious side for so few; the upper binomial bound of 99.9 %.
    expect(told(first, second)).toBeLessThanOrEqual(binomialRange(draws, 0.05).most);
  });
});

describe('verdictText', () => {
  it.each<[Measured, Measured, string]>([
    [three(2), single(1), 'lower'],
    [single(1), three(2), 'higher'],
    [single(1), single(2), 'different in these captures'],
    [single(1), single(1), 'cannot be told apart'],
    [three(1), three(1), 'cannot be told apart'],
    [without(1), single(2), 'cannot be told apart: there are neither intervals nor repeats'],
    [single(1), missing, 'no data: No fundamental.'],
  ])('case %#: is the verdict, with what is lacking', (first, second, expected) => {
    expect(verdictText(figureDifference(first, second))).toBe(expected);
  });
});

test.each<[KnownScatter, string]>([
  ['both', 'Both were repeated.'],
  ['first', 'Only Tern 1 was repeated; its scatter is taken to hold for both.'],
  ['second', 'Only Tern 2 was repeated; its scatter is taken to hold for both.'],
  ['neither', 'Neither was repeated, so it is not known whether the next captures would say the same.'],
])('a verdict says what it rests on where the scatter is known of %s', (scatter, expected) => {
  expect(scatterBasis(scatter, ['Tern 1', 'Tern 2'])).toBe(expected);
});
