import { describe, expect, test } from 'vitest';
import {
  type CurveComparison,
  compareCurves,
  findingsOf,
  type NamedBand,
  type ReadCurve,
} from '../../src/compare/index.ts';
import { scatterOf } from '../../src/compare/scatter.ts';
import { studentExceeded } from '../../src/signal/index.ts';
import { curve, normalDeviates, overFrequency, places } from './curves.ts';

const axis = places(20, 20_000, 31);
const titles = ['A', 'B'] as const;

function compare(first: ReadCurve, second: ReadCurve, bands: NamedBand[] = []): CurveComparison {
  const [found] = compareCurves([[overFrequency(first, second)]], bands).comparisons;
  return found ?? { rankings: [], bands: [] };
}

const ranking = (first: ReadCurve, second: ReadCurve) => compare(first, second).rankings[0];

/** A straight line on log-log paper through a ratio at 1 kHz. */
const line = (at1k: number, slope: number, id = 'thd', bound = 0) =>
  curve(
    axis,
    axis.map((hertz) => at1k * (hertz / 1000) ** slope),
    id,
    bound,
  );

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('studentExceeded', () => {
  test.each([
    [0.05, 1, 12.706204736432],
    [0.05, 2, 4.302652729911],
    [0.001, 10, 4.586893858703],
    [0.0001, 5, 11.177710077],
    [0.000002, 20, 6.596530148345],
    [0.05, 120, 1.979930405083],
  ])('gives the two-sided value of %f with %i degrees of freedom as scipy 1.x does', (p, freedom, t) => {
    // The sum loses about 1e-15 of probability, which is 1e-9 of the smallest one here.
    expect(studentExceeded(p, freedom) / t).toBeCloseTo(1, 8);
  });

  test('is infinite without a degree of freedom', () => {
    expect(studentExceeded(0.05, 0)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('scatterOf', () => {
  test('finds the scatter of readings about a straight course', () => {
    const squares = Array.from({ length: 60 }, (_, seed) => {
      const deviate = normalDeviates(seed + 1);
      const values = axis.map((hertz) => 0.01 * (hertz / 1000) ** -0.7 * Math.exp(0.03 * deviate()));
      const { relative } = scatterOf(curve(axis, values));
      return relative.reduce((sum, one) => sum + one ** 2, 0) / relative.length;
    });
    const rms = Math.sqrt(squares.reduce((sum, one) => sum + one, 0) / squares.length);
    // The larger of the usual and the local square is never below the one of 0.03, and a fifth above it on average.
    expect(rms).toBeGreaterThan(0.03);
    expect(rms).toBeLessThan(0.045);
  });

  test('is nothing on a straight line, and a step where the readings are rounded to it', () => {
    const smooth = scatterOf(line(0.0123456789, -0.7));
    // Rounding of the arithmetic alone.
    expect(Math.max(...smooth.relative)).toBeLessThan(1e-12);
    const coarse = scatterOf(
      curve(
        axis,
        axis.map((_, i) => (i < 15 ? 0.02 : 0.03)),
      ),
    );
    // A step of 0.01 is evenly spread: 0.01/√12 of 0.02. Far from where the value changes there is nothing else.
    expect(coarse.relative[3]).toBeCloseTo(0.01 / Math.sqrt(12) / 0.02, 12);
  });

  test('has no degree of freedom with fewer than nine readings', () => {
    const few = places(20, 20_000, 8);
    expect(
      scatterOf(
        curve(
          few,
          few.map((hertz) => 1 / hertz),
        ),
      ).freedom,
    ).toBe(0);
  });
});

describe('rankingOf', () => {
  test('finds no change where one line stays below the other', () => {
    expect(ranking(line(0.01, -0.3), line(0.013, -0.3))).toMatchObject({
      stretches: [{ lower: 'first', from: axis[0], to: axis.at(-1) }],
      crossings: [],
    });
  });

  test.each([
    [37, -1, 0],
    [150, -0.8, 0.2],
    [1234.5, -0.5, 0.5],
    [9000, 0.1, -0.4],
  ])('finds the crossing of two power laws at %f Hz', (at, one, other) => {
    const through = (slope: number) =>
      curve(
        axis,
        axis.map((hertz) => 0.01 * (hertz / at) ** slope),
      );
    const found = ranking(through(one), through(other));
    const [crossing] = found?.crossings ?? [];
    expect(found?.crossings).toHaveLength(1);
    // Straight lines on the axes on which it is interpolated: rounding alone.
    expect(crossing?.at).toBeCloseTo(at, 6);
    expect(crossing?.low).toBeLessThan(at);
    expect(crossing?.high).toBeGreaterThan(at);
    expect(found?.stretches.map(({ lower }) => lower)).toEqual(
      one < other ? ['second', 'first'] : ['first', 'second'],
    );
  });

  test('finds two crossings of a parabola and a line', () => {
    const bowl = axis.map((hertz) => 0.01 * Math.exp(0.5 * Math.log10(hertz / 600) ** 2));
    const found = ranking(
      curve(axis, bowl),
      curve(
        axis,
        axis.map(() => 0.011),
      ),
    );
    const expected = [-1, 1].map((side) => 600 * 10 ** (side * Math.sqrt(2 * Math.log(1.1))));
    const ratios = found?.crossings.map(({ at }, i) => at / (expected[i] ?? 1)) ?? [];
    expect(ratios).toHaveLength(2);
    // A chord over a tenth of a decade crosses within one per cent of where the parabola does.
    for (const ratio of ratios) expect(Math.abs(ratio - 1)).toBeLessThan(0.01);
  });

  test('finds no change where two curves touch and part again', () => {
    const touching = axis.map((hertz) => 0.01 * (1 + 0.4 * Math.log10(hertz / 632) ** 2));
    const found = ranking(
      curve(
        axis,
        axis.map(() => 0.01),
      ),
      curve(axis, touching),
    );
    expect(found?.stretches.map(({ lower }) => lower)).toEqual(['first']);
    expect(found?.crossings).toEqual([]);
  });

  test('finds nothing where a crossing lies inside the scatter', () => {
    const deviate = normalDeviates(3);
    const noisy = (slope: number) =>
      curve(
        axis,
        axis.map((hertz) => 0.01 * (hertz / 500) ** slope * Math.exp(0.05 * deviate())),
      );
    expect(ranking(noisy(0.02), noisy(-0.02))?.stretches).toEqual([]);
  });

  test('finds nothing that the instrument could have made, and what it could not', () => {
    const differ = (bound: number) => ranking(line(0.01, 0, 'thd', bound), line(0.0125, 0, 'thd', bound));
    // 1.00 % and 1.25 % are 0.25 points apart: within 0.15 to either side, not within 0.1.
    expect(differ(0.0015)?.stretches).toEqual([]);
    expect(differ(0.001)?.stretches).toHaveLength(1);
  });

  test('takes no run shorter than a third of an octave, and reads nothing beyond either sweep', () => {
    const bump = axis.map((_, i) => (i === 15 ? 0.02 : 0.01));
    expect(
      ranking(
        curve(axis, bump),
        curve(
          axis,
          axis.map(() => 0.01),
        ),
      )?.stretches,
    ).toEqual([]);
    const short = places(100, 1000, 11);
    const found = ranking(
      line(0.01, 0),
      curve(
        short,
        short.map(() => 0.02),
      ),
    );
    expect(found?.places.every(({ at }) => at >= 100 && at <= 1000)).toBe(true);
  });

  test('says nothing of a curve with too few readings, and leaves out readings at zero', () => {
    const few = places(20, 20_000, 5);
    const flat = (value: number) =>
      curve(
        few,
        few.map(() => value),
      );
    expect(ranking(flat(0.01), flat(0.05))?.stretches).toEqual([]);
    expect(findingsOf(compare(flat(0.01), flat(0.05)), titles).at(-1)?.text).toMatch(/^Too few readings/);
    const zero = curve(
      axis,
      axis.map((_, i) => (i === 4 ? 0 : 0.01)),
    );
    expect(ranking(zero, line(0.02, 0))?.places.every(({ first }) => (first.value ?? 0) > 0)).toBe(true);
    const nothing = curve(
      axis,
      axis.map(() => 0),
    );
    expect(compare(nothing, line(0.02, 0)).rankings).toEqual([]);
  });
});

describe('compareCurves', () => {
  test('takes means over bands, of the part that both cover and an octave at least', () => {
    const bands: NamedBand[] = [
      { name: 'bass', band: [10, 200] },
      { name: 'beyond', band: [15_000, 40_000] },
    ];
    const { bands: found } = compare(line(0.01, -1), line(0.005, -1), bands);
    // The mean of the logarithm of a power law is its value in the middle: √(20·200) = 63.25 Hz.
    expect(found[0]?.pair?.first.value).toBeCloseTo((0.01 * 1000) / Math.sqrt(20 * 200), 9);
    expect(found[0]?.band[0]).toBeCloseTo(20, 9);
    expect(found[0]?.pair?.lower).toBe('second');
    expect(found[1]?.pair).toBeNull();
  });

  test('widens every interval with the number of readings looked at', () => {
    const deviate = normalDeviates(11);
    const noisy = () =>
      curve(
        axis,
        axis.map(() => 0.01 * Math.exp(0.02 * deviate())),
      );
    const pair = overFrequency(noisy(), noisy());
    const width = (pairs: number) => {
      const { comparisons, looked } = compareCurves(
        Array.from({ length: pairs }, () => [pair]),
        [],
      );
      const { low = 0, high = 0 } = comparisons[0]?.rankings[0]?.places[5]?.first ?? {};
      return { looked, width: high - low };
    };
    expect(width(1).looked).toBe(31);
    expect(width(20).looked).toBe(620);
    expect(width(20).width).toBeGreaterThan(1.2 * width(1).width);
  });

  const base = axis.map((hertz) => 0.004 * (1 + 8 * (25 / hertz) ** 2 + (hertz / 12_000) ** 2));
  const noises: Readonly<Record<string, (value: number, i: number, deviate: () => number) => number>> = {
    'in proportion': (value, _, deviate) => value * Math.exp(0.02 * deviate()),
    added: (value, _, deviate) => Math.abs(value + 0.0008 * deviate()),
    'ten times as large at one end': (value, i, deviate) =>
      value * Math.exp((i < 10 ? 0.05 : 0.005) * deviate()),
  };
  test.each(Object.keys(noises))(
    '1,000 pairs of identical alternatives with noise %s give a finding in at most one of twenty',
    (name) => {
      const noise = noises[name] ?? ((value: number) => value);
      const ids = ['thd', 'harmonic-3'];
      const found = Array.from({ length: 1000 }, (_, seed) => {
        const deviate = normalDeviates(seed + 1);
        const noisy = (id: string) =>
          curve(
            axis,
            base.map((value, i) => noise(value, i, deviate)),
            id,
          );
        const pairs = ids.map((id) => overFrequency(noisy(id), noisy(id)));
        return compareCurves([pairs], []).comparisons.some(({ rankings }) =>
          rankings.some(({ stretches }) => stretches.length > 0),
        );
      });
      // 63 of 1,000 is the 97.5 % point of a binomial distribution with a chance of 5 %.
      expect(found.filter(Boolean).length).toBeLessThanOrEqual(63);
    },
    30_000,
  );

  test('a difference of a fifth is found beside a scatter of one per cent', () => {
    const found = Array.from({ length: 50 }, (_, seed) => {
      const deviate = normalDeviates(seed + 7000);
      const noisy = (times: number) =>
        curve(
          axis,
          base.map((value) => times * value * Math.exp(0.01 * deviate())),
        );
      return (ranking(noisy(1), noisy(1.2))?.stretches ?? []).length > 0;
    });
    // Every one of them: what is not found would make the bound above an empty one.
    expect(found.every(Boolean)).toBe(true);
  });
});

test('no curve, however odd, makes a finding without a number', () => {
  const odd = normalDeviates(77);
  for (let round = 0; round < 200; round++) {
    const strange = () => {
      const count = Math.round(Math.abs(20 * odd()));
      const at = Array.from({ length: count }, (_, i) => 20 + i * (1 + Math.abs(odd())) ** 3);
      const rising = at.filter((place, i) => at.slice(0, i).every((earlier) => earlier < place));
      const size = 10 ** (4 * odd());
      const values = rising.map(() => (odd() > 1 ? 0 : odd() > 0.8 ? size : Math.abs(odd()) * size));
      return curve(rising, values, 'thd', round % 3 === 0 ? size : 0);
    };
    const found = compare(strange(), strange(), [{ name: 'all', band: [20, 20_000] }]);
    expect(JSON.stringify([found, findingsOf(found, titles)])).not.toMatch(/NaN|Infinity/);
    const numbers = found.rankings.flatMap(({ places: all }) =>
      all.flatMap(({ first, decibels }) => [first, decibels]),
    );
    for (const one of numbers)
      for (const value of Object.values(one ?? {}))
        if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
  }
});

describe('findingsOf', () => {
  /** Constructed, and no measurement of anything: total distortion through four points, straight between them. */
  const through = (points: readonly (readonly [number, number])[], id = 'thd', bound = 0.0015) => {
    const grid = [...places(40, 20_000, 40), 150, 1000].sort((a, b) => a - b);
    const valueAt = (hertz: number) => {
      const next = Math.max(
        1,
        points.findIndex(([at]) => at >= hertz * (1 - 1e-12)),
      );
      const [[from, low], [to, high]] = [points[next - 1] ?? [1, 1], points[next] ?? [1, 1]];
      return low * (high / low) ** (Math.log(hertz / from) / Math.log(to / from));
    };
    return curve(grid, grid.map(valueAt), id, bound);
  };

  test('a constructed pair: a quarter of a point at 1 kHz, a factor of four at 40 Hz, a crossing at 150 Hz', () => {
    const first = through([
      [40, 0.06],
      [150, 0.0115],
      [1000, 0.01],
      [20_000, 0.01],
    ]);
    const second = through([
      [40, 0.015],
      [150, 0.0115],
      [1000, 0.0125],
      [20_000, 0.02],
    ]);
    const comparison = compare(first, second);
    const [found] = comparison.rankings;
    const [crossing] = found?.crossings ?? [];
    // Within a hundredth of an octave.
    expect(Math.abs(Math.log2((crossing?.at ?? 1) / 150))).toBeLessThan(0.01);
    expect(found?.stretches.map(({ lower }) => lower)).toEqual(['second', 'first']);
    const [low] = found?.stretches ?? [];
    expect(low?.largest.at).toBeCloseTo(40, 9);
    expect((low?.largest.first.value ?? 0) / (low?.largest.second.value ?? 1)).toBeCloseTo(4, 9);
    const texts = findingsOf(comparison, titles).map(({ text }) => plain(text));
    expect(texts[0]).toBe(
      'Total distortion at 1.00 kHz favours A, 1.00 % against 1.25 %, inside the uncertainty.',
    );
    expect(texts[1]).toBe(
      'Total distortion against frequency at 1.00 W: below 150 Hz (between 104 Hz and 1.33 kHz) B is lower, by a factor of 4.00 at 40.0 Hz; above 150 Hz A is lower, by a factor of 2.00 at 20.0 kHz.',
    );
  });

  test('say where a harmonic’s order is another one than that of the headline, and by how much', () => {
    const comparison = compareCurves(
      [
        [
          overFrequency(line(0.01, 0), line(0.02, 0)),
          overFrequency(line(0.004, -0.01, 'harmonic-3'), line(0.003, 0, 'harmonic-3')),
          overFrequency(line(0.008, 0, 'harmonic-2'), line(0.019, 0, 'harmonic-2')),
          overFrequency(line(0.001, 0, 'harmonic-5'), line(0.001, 0, 'harmonic-5')),
        ],
      ],
      [],
    ).comparisons[0];
    const found = comparison ? findingsOf(comparison, titles) : [];
    expect(found.map(({ kind, text }) => [kind, plain(text)])).toEqual([
      ['headline', 'Total distortion at 1.00 kHz is lower with A: 1.00 % against 2.00 %.'],
      [
        'against the headline',
        'Third harmonic against frequency at 1.00 W: from 20.0 Hz to 20.0 kHz B is lower, by 2.84 dB at 20.0 Hz.',
      ],
      [
        'same order',
        'The same order wherever they can be told apart: total distortion and second harmonic against frequency at 1.00 W.',
      ],
      ['not told', 'Cannot be told apart anywhere: fifth harmonic against frequency at 1.00 W.'],
    ]);
  });

  test('say of a crossing of which only one side is told that it lies beyond the last place', () => {
    const [flat, deviate] = [0.01, normalDeviates(5)];
    const nearly = axis.map((hertz) => flat * 1.004 * (hertz / 20) ** -0.02 * Math.exp(0.0005 * deviate()));
    const text = findingsOf(
      compare(
        curve(
          axis,
          axis.map(() => flat),
          'harmonic-3',
        ),
        curve(axis, nearly, 'harmonic-3'),
      ),
      titles,
    )[0]?.text;
    expect(plain(text ?? '')).toMatch(
      /^Third harmonic against frequency at 1\.00 W: from [\d.]+ Hz to 20\.0 kHz B is lower, by [\d.]+ dB at .*; the readings cross at [\d.]+ Hz, which is only told to lie below [\d.]+ Hz\.$/,
    );
  });

  test('without a curve of total distortion there is no headline, and with equal curves it says so', () => {
    expect(findingsOf({ rankings: [], bands: [] }, titles)).toEqual([]);
    const [same] = findingsOf(compare(line(0.01, 0), line(0.01, 0)), titles);
    expect(plain(same?.text ?? '')).toBe('Total distortion at 1.00 kHz is the same with both, 1.00 %.');
  });
});
