import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type FrequencySweep,
  type FrequencySweepOptions,
  summariseFrequencySweep,
} from '../../src/signal/index.ts';
import { check } from './checks.ts';

const of = (id: string) => check('linear', id);

const markNotFinite = (_: string, value: unknown) =>
  typeof value === 'number' && !Number.isFinite(value) ? 'not finite' : value;

/** Frequencies from one to another, so many to a decade. */
function decades(fromHz: number, toHz: number, perDecade: number): Float64Array {
  const count = Math.round(Math.log10(toHz / fromHz) * perDecade) + 1;
  return Float64Array.from({ length: count }, (_, i) => fromHz * 10 ** (i / perDecade));
}

const lowPass = (cornerHz: number) => (frequencyHz: number) => 1 / Math.hypot(1, frequencyHz / cornerHz);
const summarise = (sweep: FrequencySweep, options?: FrequencySweepOptions) =>
  summariseFrequencySweep(sweep, options);
const reasons = ({ withheld }: ReturnType<typeof summarise>) => withheld.map(({ figure }) => figure);

describe('the response of a first-order low-pass', () => {
  // The reference lies so far below the corner that its own drop of 4e-8 dB is no matter.
  const cornerHz = 1000;
  const frequencyHz = decades(0.1, 100_000, 400);
  const { response, at } = summarise(
    {
      frequencyHz,
      level: frequencyHz.map(lowPass(cornerHz)),
      phaseDeg: frequencyHz.map((f) => (-180 / Math.PI) * Math.atan(f / cornerHz)),
    },
    { referenceHz: 0.1, atHz: [100, 1000, 10_000], bandHz: [0.1, 100] },
  );

  it('is down by 1 dB and by exactly 3 dB where the algebra says', () => {
    // 400 points to a decade: straight lines between them miss the curve by less than 1e-5 of the frequency.
    const miss = (index: number, expected: number) =>
      Math.abs((response?.limits[index]?.upperHz ?? 0) / cornerHz / expected - 1);
    expect(miss(0, of('f/fc at −1 dB'))).toBeLessThan(1e-5);
    expect(miss(1, of('f/fc at −3 dB'))).toBeLessThan(1e-5);
    expect(response?.limits.map(({ dropDb }) => dropDb)).toEqual([1, 3]);
  });

  it('has its limit at −3 dB below the half-power point, which is the corner', () => {
    expect(response?.limits[1]?.upperHz).toBeLessThan(cornerHz * 0.998);
  });

  it('has the levels and phases of the algebra', () => {
    const levels = at.map(({ level }) => 20 * Math.log10(level ?? 0));
    const phases = at.map(({ phaseDeg }) => phaseDeg ?? 0);
    // The points at 0.1, 1 and 10 times the corner are in the sweep: rounding of powers of ten.
    [0.1, 1, 10].forEach((times, i) => {
      const name = times === 1 ? 'fc' : `${times} fc`;
      expect(levels[i]).toBeCloseTo(of(`response at ${name} in dB`), 6);
      expect(phases[i]).toBeCloseTo(of(`phase at ${name} in degrees`), 6);
    });
  });

  it('deviates most at the edge of its band', () => {
    expect(response?.deviation?.db).toBeCloseTo(of('response at 0.1 fc in dB'), 6);
    expect(response?.deviation?.atHz).toBeCloseTo(100, 6);
    expect(response?.deviation?.bandHz[1]).toBe(100);
  });

  it.each([
    ['−0.1', 0.1],
    ['−0.5', 0.5],
  ])('interpolates its level at %s dB', (name, drop) => {
    const wantedHz = of(`f/fc at ${name} dB`) * cornerHz;
    const [values] = summarise(
      { frequencyHz, level: frequencyHz.map(lowPass(cornerHz)) },
      { atHz: [wantedHz] },
    ).at;
    // The same lines: 1e-5 dB.
    expect(Math.abs(20 * Math.log10(values?.level ?? 0) + drop)).toBeLessThan(1e-5);
  });
});

describe('the response re 1 kHz', () => {
  const frequencyHz = decades(5, 50_000, 3);
  const flat = frequencyHz.map(() => 2);

  it('states level and frequency of the reference, interpolated where no point stands there', () => {
    const slope = frequencyHz.map((f) => f / 500);
    const { response } = summarise({ frequencyHz, level: slope });
    expect(response?.referenceHz).toBe(1000);
    // A straight line on log-log paper: rounding.
    expect(response?.referenceLevel).toBeCloseTo(2, 12);
    expect(response?.referenceGainDb).toBeNull();
  });

  it('is the same for a level and for a gain in decibels', () => {
    const level = frequencyHz.map((f) => lowPass(20_000)(f) / lowPass(10)(f) / f);
    const gain = summarise({ frequencyHz, gainDb: level.map((value) => 20 * Math.log10(value)) });
    const plain = summarise({ frequencyHz, level });
    expect(gain.response?.limits).toEqual(plain.response?.limits);
    expect(gain.response?.deviation).toEqual(plain.response?.deviation);
    expect(gain.response?.referenceLevel).toBeNull();
    expect(gain.response?.referenceGainDb).toBeCloseTo(
      20 * Math.log10(plain.response?.referenceLevel ?? 0),
      12,
    );
  });

  it('has limits of null where the sweep does not reach them, and says where it ends', () => {
    const summary = summarise({ frequencyHz, level: flat });
    expect(summary.response?.limits).toEqual([
      { dropDb: 1, lowerHz: null, upperHz: null },
      { dropDb: 3, lowerHz: null, upperHz: null },
    ]);
    expect(reasons(summary)).toEqual([
      'lower limit at −1 dB',
      'upper limit at −1 dB',
      'lower limit at −3 dB',
      'upper limit at −3 dB',
    ]);
    expect(summary.withheld[0]?.reason).toContain('5.000\u00a0Hz');
    expect(summary.withheld[1]?.reason).toContain('50.00\u00a0kHz');
  });

  it('takes the limit nearest to the reference where the response dips more than once', () => {
    const { response } = summarise({
      frequencyHz: Float64Array.of(100, 200, 400, 1000, 2000, 4000, 8000),
      gainDb: Float64Array.of(-6, 0, -2, 0, 0, -6, 0),
    });
    // Half way in level from 2 to 4 kHz on a logarithmic axis is 2·√2 kHz.
    expect(response?.limits[1]?.upperHz).toBeCloseTo(2000 * Math.SQRT2, 9);
    expect(response?.limits[1]?.lowerHz).toBeCloseTo(100 * Math.SQRT2, 9);
    expect(response?.limits[0]?.lowerHz).toBeCloseTo(Math.sqrt(400 * 1000), 9);
  });

  it('states the largest deviation with its sign, within the part of the band that is there', () => {
    const { response } = summarise({
      frequencyHz: Float64Array.of(10, 100, 1000, 10_000, 15_000),
      gainDb: Float64Array.of(-9, 0, 0, 1.5, 0.5),
    });
    // Between 10 and 100 Hz the line passes 20 Hz at −9·(1 − lg 2) dB.
    expect(response?.deviation).toEqual({
      db: expect.closeTo(-9 * (1 - Math.log10(2)), 9),
      atHz: 20,
      bandHz: [20, 15_000],
    });
    const narrower = summarise(
      {
        frequencyHz: Float64Array.of(10, 100, 1000, 10_000, 15_000),
        gainDb: Float64Array.of(-9, 0, 0, 1.5, 0.5),
      },
      { bandHz: [100, 20_000] },
    );
    expect(narrower.response?.deviation).toEqual({ db: 1.5, atHz: 10_000, bandHz: [100, 15_000] });
  });

  it('does not exist without the reference, without levels, or with a single point', () => {
    const away = summarise({ frequencyHz: Float64Array.of(20, 500), level: Float64Array.of(1, 1) });
    expect(away.response).toBeNull();
    expect(away.withheld[0]?.reason).toContain('20.00\u00a0Hz to 500.0\u00a0Hz');
    expect(summarise({ frequencyHz, thd: flat }).response).toBeNull();
    expect(summarise({ frequencyHz: Float64Array.of(1000), level: Float64Array.of(1) }).response).toBeNull();
    expect(summarise({ frequencyHz: new Float64Array(), level: new Float64Array() })).toMatchObject({
      points: 0,
      rangeHz: null,
      response: null,
    });
  });

  it('has no deviation in a band that the sweep misses', () => {
    const summary = summarise({ frequencyHz, level: flat }, { bandHz: [60_000, 90_000] });
    expect(summary.response?.deviation).toBeNull();
    expect(reasons(summary)).toContain('deviation');
  });
});

describe('distortion over frequency', () => {
  const frequencyHz = Float64Array.of(20, 100, 1000, 10_000);
  const summary = summarise(
    {
      frequencyHz,
      thd: Float64Array.of(0.04, 0.02, 0.01, 0.04),
      harmonics: [
        { order: 2, ratio: Float64Array.of(0.03, 0.02, 0, 0.01) },
        { order: 3, ratio: Float64Array.of(0.01, Number.NaN, 0.01, 0.03) },
      ],
    },
    { atHz: [200, 50_000] },
  );

  it('has its value at 1 kHz and its extremes with their places, for the total and for each order', () => {
    expect(summary.distortion).toEqual([
      {
        order: null,
        atReference: 0.01,
        minimum: { ratio: 0.01, atHz: 1000 },
        maximum: { ratio: 0.04, atHz: 20 },
      },
      { order: 2, atReference: 0, minimum: { ratio: 0, atHz: 1000 }, maximum: { ratio: 0.03, atHz: 20 } },
      {
        order: 3,
        atReference: 0.01,
        minimum: { ratio: 0.01, atHz: 20 },
        maximum: { ratio: 0.03, atHz: 10_000 },
      },
    ]);
  });

  it('runs between points as powers of frequency, and straight where an end is zero', () => {
    const [values] = summary.at;
    // From 100 to 1000 Hz, 200 Hz is lg 2 of the way: 0.02·2^(−lg 2) and 0.02·(1 − lg 2).
    expect(values?.thd).toBeCloseTo(0.02 * 2 ** -Math.log10(2), 12);
    expect(values?.harmonics[0]?.ratio).toBeCloseTo(0.02 * (1 - Math.log10(2)), 12);
    expect(values?.level).toBeNull();
  });

  it('is not extrapolated', () => {
    expect(summary.at[1]).toMatchObject({
      thd: null,
      harmonics: [
        { order: 2, ratio: null },
        { order: 3, ratio: null },
      ],
    });
    expect(reasons(summary)).toContain('values at 50000 Hz');
  });

  it('leaves out what is no ratio and says how many', () => {
    const found = summary.warnings.find(({ rule }) => rule === 'values-left-out');
    expect(found?.message).toContain('1 value of harmonic 3');
  });

  it('says why a column has no value at the reference', () => {
    const low = summarise({ frequencyHz: Float64Array.of(20, 100), thd: Float64Array.of(0.01, 0.02) });
    expect(low.distortion[0]?.atReference).toBeNull();
    expect(reasons(low)).toContain('thd at reference');
  });
});

describe('untidy sweeps', () => {
  it('are sorted, rid of points without a frequency, and averaged where a frequency repeats', () => {
    const summary = summarise({
      frequencyHz: Float64Array.of(2000, Number.NaN, 1000, 500, 1000, -3),
      gainDb: Float64Array.of(1, 9, 2, 3, 4, 9),
    });
    expect(summary.points).toBe(4);
    expect(summary.rangeHz).toEqual([500, 2000]);
    expect(summary.response?.referenceGainDb).toBe(3);
    expect(summary.warnings.map(({ rule }) => rule)).toEqual(['points-left-out', 'points-repeated']);
  });

  it('lose a column of another length, which is said', () => {
    const summary = summarise({ frequencyHz: Float64Array.of(500, 2000), gainDb: Float64Array.of(1) });
    expect(summary.response).toBeNull();
    expect(summary.warnings.map(({ rule }) => rule)).toEqual(['column-length']);
  });

  it('never give a number that is not finite', () => {
    const anything = fc.double();
    const column = fc
      .array(anything, { minLength: 5, maxLength: 5 })
      .map((values) => Float64Array.from(values));
    fc.assert(
      fc.property(column, column, column, column, (frequencyHz, level, thd, ratio) => {
        const summary = summarise(
          { frequencyHz, level, gainDb: thd, phaseDeg: ratio, thd, harmonics: [{ order: 2, ratio }] },
          { referenceHz: frequencyHz[0] ?? 1, atHz: [...frequencyHz, 1] },
        );
        expect(JSON.stringify(summary, markNotFinite)).not.toContain('not finite');
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});
