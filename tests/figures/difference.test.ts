import { describe, expect, it, test } from 'vitest';
import { normalSource } from '../../src/demo/random.ts';
import {
  type DeclaredRepeatability,
  declaredMeasured,
  declaredText,
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
import { repeatStatistics } from '../../src/signal/index.ts';
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

/** A single capture whose log declares a standard deviation of 5 % of the value, found from three captures. */
const declaring = (percent: number, captures = 3): Measured =>
  declaredMeasured(single(percent).figure, [declaration({ captures })]);

const declaration = (part: Partial<DeclaredRepeatability> = {}): DeclaredRepeatability => ({
  ...{ figures: ['thd'], stated: 'standard deviation', size: { value: 0.05, unit: '1' }, captures: 3 },
  ...{ from: 'Tern 1 in January', ...part },
});

const repeated = 'three repeats';
const stated = 'one capture of declared scatter';
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
  [stated, 'one capture far below', declaring(2), single(1), 'lower', 'first'],
  [stated, 'one capture far above', declaring(1), single(2), 'higher', 'first'],
  [
    stated,
    'one capture beyond its noise, within the scatter',
    declaring(1),
    single(1.2),
    'cannot be told apart',
    'first',
  ],
  ['one capture', 'one far below of declared scatter', single(2), declaring(1), 'lower', 'second'],
  [stated, 'another far below', declaring(2), declaring(1), 'lower', 'both'],
  [stated, 'another within the scatter', declaring(1), declaring(1.2), 'cannot be told apart', 'both'],
  [repeated, 'one capture of declared scatter far below', three(2), declaring(1), 'lower', 'both'],
  [stated, 'three repeats far above', declaring(1), three(2), 'higher', 'both'],
  [stated, 'a figure that does not exist', declaring(1), missing, 'no data', 'first'],
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

describe('a declared scatter', () => {
  const halfOf = (first: Measured, second: Measured) => {
    const { low = 0, high = 0 } = figureDifference(first, second);
    return (high - low) / 2;
  };

  it('is a share of each value, and two of them are one estimate', () => {
    // 5 % of 1 % and of 2 %, with the two degrees of three captures once: t₉₅(2) = 4.302653, exact.
    const expected = 4.302652729911275 * Math.hypot(0.0005, 0.001);
    expect(Math.abs(halfOf(declaring(1), declaring(2)) / expected - 1)).toBeLessThan(1e-9);
    // The fewer degrees of the two count.
    const cautious = 4.302652729911275 * Math.hypot(0.0005, 0.001);
    expect(Math.abs(halfOf(declaring(1, 30), declaring(2, 3)) / cautious - 1)).toBeLessThan(1e-9);
  });

  it('is never less than what the record’s own noise gives', () => {
    const steady = [declaration({ size: { value: 1e-6, unit: '1' } })];
    const rough = declaredMeasured(withNoise('thd', 0.01, 0.002), steady);
    // 0.2 % on both sides, with two degrees.
    const expected = 4.302652729911275 * Math.hypot(0.002, 0.002);
    expect(Math.abs(halfOf(rough, rough) / expected - 1)).toBeLessThan(1e-9);
  });

  it('can be stated as half of a 95 % interval: JCGM 100:2008, 4.3.4, with Student’s t', () => {
    const half = declaration({ stated: '95 % interval', size: { value: 0.04302652729911275, unit: '1' } });
    const { repeatability } = declaredMeasured(figureOf('thd', 0.01), [half]);
    // Half the interval over t₉₅(2) = 4.302653 is 1 % of 1 %; exact for two degrees.
    expect(repeatability?.standardDeviation).toBeCloseTo(1e-4, 12);
    expect(repeatability).toMatchObject({ freedom: 2, isDeclared: true });
  });

  it.each<[Partial<DeclaredRepeatability>, string, string, number | undefined]>([
    [{ figures: ['harmonics'] }, 'harmonic-3', '1', 0.5],
    [{ figures: ['harmonics'] }, 'harmonic-3-slope', 'dB/dB', undefined],
    [{ figures: ['sinad'], size: { value: 0.2, unit: 'dB' } }, 'sinad', 'dB', 0.2],
    [{ figures: ['sinad'] }, 'sinad', 'dB', undefined],
    [{ figures: ['fundamental-level'], size: { value: 0.2, unit: 'V' } }, 'fundamental-level', 'V', 0.2],
    [
      { figures: ['fundamental-level'], size: { value: 0.2, unit: 'V' } },
      'fundamental-level',
      'A',
      undefined,
    ],
    [{ figures: ['phase-at-fundamental'] }, 'phase-at-fundamental', '°', undefined],
    [{}, 'thd-plus-noise', '1', undefined],
  ])('%j for %s in "%s" gives %s', (part, id, unit, expected) => {
    const { repeatability } = declaredMeasured(figureOf(id, 10, { unit }), [declaration(part)]);
    expect(repeatability?.standardDeviation).toBe(expected);
  });

  it('says of which sides it was declared', () => {
    const declaredOf = (first: Measured, second: Measured) => figureDifference(first, second).declared;
    expect(declaredOf(declaring(1), declaring(2))).toBe('both');
    expect(declaredOf(declaring(1), three(2))).toBe('first');
    expect(declaredOf(single(1), declaring(2))).toBe('second');
    expect(declaredOf(three(1), single(2))).toBe('neither');
    expect(declaredOf(declaring(1), missing)).toBe('first');
  });

  it('tells two captures of one truth apart in 5 % of cases and no more, if it was found from six of the same', () => {
    const normal = normalSource(41);
    const level = () => figureOf('fundamental-level', 10 + normal(), { unit: 'V' });
    const told = Array.from({ length: 5000 }, () => {
      const readings = Float64Array.from({ length: 6 }, normal);
      const size = { value: repeatStatistics(readings)?.standardDeviation ?? 0, unit: 'V' };
      const declared = [declaration({ figures: ['fundamental-level'], size, captures: 6 })];
      const sides = [level(), level()].map((figure) => declaredMeasured(figure, declared));
      const [first = missing, second = missing] = sides;
      return figureDifference(first, second).verdict !== 'cannot be told apart';
    });
    // Exact theory: a difference over a scatter of five degrees. The binomial range of 99.9 %.
    const { least, most } = binomialRange(5000, 0.05);
    expect(told.filter(Boolean).length).toBeGreaterThanOrEqual(least);
    expect(told.filter(Boolean).length).toBeLessThanOrEqual(most);
  });

  it('is told in a sentence with its size and where it comes from', () => {
    const text = declaredText(declaration({ figures: ['thd', 'harmonics'], captures: 6 })).replaceAll(
      '\u00a0',
      ' ',
    );
    expect(text).toBe(
      'THD, single harmonics: standard deviation of 5.0 % of the value for one capture, found from 6 captures (Tern 1 in January).',
    );
    const half = declaration({
      figures: ['sinad'],
      stated: '95 % interval',
      size: { value: 0.2, unit: 'dB' },
    });
    expect(declaredText(half).replaceAll('\u00a0', ' ')).toContain(
      'SINAD: 95 % interval of ± 0.20 dB for one capture',
    );
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

test.each<[KnownScatter, KnownScatter, string]>([
  ['both', 'neither', 'Both were repeated.'],
  ['first', 'neither', 'Only Tern 1 was repeated; its scatter is taken to hold for both.'],
  ['second', 'neither', 'Only Tern 2 was repeated; its scatter is taken to hold for both.'],
  [
    'neither',
    'neither',
    'Neither was repeated, so it is not known whether the next captures would say the same.',
  ],
  ['both', 'both', 'Neither was repeated; the scatter of both was declared from earlier captures.'],
  ['both', 'first', 'Tern 2 was repeated; the scatter of Tern 1 was declared from earlier captures.'],
  ['both', 'second', 'Tern 1 was repeated; the scatter of Tern 2 was declared from earlier captures.'],
  ['first', 'first', 'Neither was repeated; a scatter declared for Tern 1 is taken to hold for both.'],
  ['second', 'second', 'Neither was repeated; a scatter declared for Tern 2 is taken to hold for both.'],
])(
  'a verdict says what it rests on where scatter is known of %s and declared of %s',
  (scatter, declared, expected) => {
    expect(scatterBasis({ scatter, declared }, ['Tern 1', 'Tern 2'])).toBe(expected);
  },
);
