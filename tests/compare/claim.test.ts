import { describe, expect, test } from 'vitest';
import {
  type Claim,
  exactly,
  foundText,
  isBorneOut,
  judgeClaim,
  type Outcome,
} from '../../src/compare/index.ts';
import { type Figure, type Measured, singleMeasured } from '../../src/figures/index.ts';

const provenance = { file: 'a.csv', sha256: null, lines: null, method: 'thd', settings: {} };

/** A figure with half the width of its interval; without one where it is not stated. */
const figure = (value: number | null, half?: number, more: Partial<Figure> = {}): Figure => ({
  ...{ id: 'thd', unit: '1', conditions: {}, provenance, value },
  ...(half === undefined || value === null ? {} : { low: value - half, high: value + half }),
  ...more,
});

const single = (...written: Parameters<typeof figure>): Measured => singleMeasured(figure(...written));

const repeated = (value: number, standardDeviation: number): Measured => ({
  figure: figure(value, standardDeviation, { random: standardDeviation }),
  count: 5,
  repeatability: { standardDeviation, freedom: 4, isDeclared: false },
});

const judge = (claim: Claim, of: Measured, reference: Measured) =>
  judgeClaim(claim, [{ at: null, of, reference }]);

const lower: Claim = { relation: 'lower', margin: null };
const higher: Claim = { relation: 'higher', margin: null };
const tenDecibels: Claim = { relation: 'lower', margin: { kind: 'decibels', decibels: 10 } };
const twice: Claim = { relation: 'higher', margin: { kind: 'share', ratio: 1 } };
const within: Claim = { relation: 'within', margin: { kind: 'share', ratio: 0.2 } };
const equal: Claim = { relation: 'equal', margin: null };

const names = new Map<Claim, string>([
  [lower, 'lower'],
  [higher, 'higher'],
  [tenDecibels, 'lower by 10 dB'],
  [twice, 'higher by 100 %'],
  [within, 'within 20 %'],
  [equal, 'equal'],
]);

/** Relation × uncertainty; figures in per cent beside 1 % ± 0.05 %, first the figure that the claim is about. */
const table: [Claim, value: number, half: number | undefined, Outcome][] = [
  [lower, 0.5, 0.1, 'holds'],
  [lower, 1.5, 0.1, 'does not hold'],
  [lower, 0.9, 0.2, 'cannot be told apart'],
  [lower, 0.5, undefined, 'cannot be told apart'],
  [higher, 1.5, 0.1, 'holds'],
  [higher, 0.5, 0.1, 'does not hold'],
  [higher, 1.1, 0.2, 'cannot be told apart'],
  [higher, 1.5, undefined, 'cannot be told apart'],
  // 10 dB below 1 % is 0.316 %, with an interval of ± 0.016 %.
  [tenDecibels, 0.2, 0.05, 'holds'],
  [tenDecibels, 0.5, 0.05, 'does not hold'],
  [tenDecibels, 0.3, 0.05, 'cannot be told apart'],
  [tenDecibels, 0.2, undefined, 'cannot be told apart'],
  // Twice 1 % is 2 % ± 0.1 %.
  [twice, 2.4, 0.1, 'holds'],
  [twice, 1.6, 0.1, 'does not hold'],
  [twice, 2.1, 0.1, 'cannot be told apart'],
  // The bounds are 0.8 % ± 0.04 % and 1.2 % ± 0.06 %.
  [within, 1, 0.05, 'holds'],
  [within, 1.4, 0.05, 'does not hold'],
  [within, 0.6, 0.05, 'does not hold'],
  [within, 1.2, 0.05, 'cannot be told apart'],
  [within, 1, 0.5, 'cannot be told apart'],
  [within, 1, undefined, 'cannot be told apart'],
  [equal, 1, 0.05, 'cannot be told apart'],
  [equal, 1.5, 0.05, 'does not hold'],
  [equal, 0.5, 0.05, 'does not hold'],
  [equal, 1.5, undefined, 'cannot be told apart'],
];

/** What a claim can be about: below, at and above what it asks for, in per cent beside 1 %. */
const asked: [Claim, below: number, at: number, above: number][] = [
  [lower, 0.5, 1, 1.5],
  [higher, 0.5, 1, 1.5],
  [tenDecibels, 0.2, 0.316, 0.5],
  [twice, 1.6, 2, 2.4],
  [{ relation: 'lower', margin: { kind: 'share', ratio: 0.5 } }, 0.3, 0.5, 0.8],
  [{ relation: 'higher', margin: { kind: 'decibels', decibels: 6 } }, 1.6, 1.995, 2.4],
  [{ relation: 'lower', margin: { kind: 'amount', value: 0.004, unit: '1' } }, 0.4, 0.6, 0.9],
  [{ relation: 'higher', margin: { kind: 'amount', value: 0.004, unit: '1' } }, 1.1, 1.4, 1.7],
  [within, 0.6, 0.8, 1],
  [within, 1, 1.2, 1.5],
  [{ relation: 'within', margin: { kind: 'decibels', decibels: 1 } }, 0.7, 0.891, 1],
  [{ relation: 'within', margin: { kind: 'amount', value: 0.002, unit: '1' } }, 1, 1.2, 1.5],
  [equal, 0.5, 1, 1.5],
];

/** What is said below, at and above what is asked for, where both figures have intervals. */
function saidOf({ relation }: Claim, isUpper: boolean): [Outcome, Outcome, Outcome] {
  const [yes, no, unknown] = ['holds', 'does not hold', 'cannot be told apart'] as const;
  if (relation === 'equal') return [no, unknown, no];
  const holdsAbove = relation === 'higher' || (relation === 'within' && !isUpper);
  return holdsAbove ? [no, unknown, yes] : [yes, unknown, no];
}

describe('every relation with every kind of margin', () => {
  const cases = asked.map((row) => [JSON.stringify(row[0]), ...row] as const);
  const half = 0.0002;

  test.each(cases)(
    '%s is told by intervals below, at and above what it asks for',
    (_name, claim, ...values) => {
      const isUpper = values[2] > 1;
      const found = values.map(
        (value) => judge(claim, single(value / 100, half), single(0.01, half)).outcome,
      );
      expect(found).toEqual(saidOf(claim, isUpper));
    },
  );

  test.each(cases)(
    '%s cannot be told where either figure or both have no interval',
    (_name, claim, ...values) => {
      for (const value of values) {
        const pairs = [
          [single(value / 100), single(0.01, half)],
          [single(value / 100, half), single(0.01)],
          [single(value / 100), single(0.01)],
        ] as const;
        for (const [of, reference] of pairs) {
          expect(judge(claim, of, reference).outcome).toBe('cannot be told apart');
          expect(isBorneOut(claim, judge(claim, of, reference))).toBe(false);
        }
      }
    },
  );

  test.each(cases)('%s has no data where either figure or both are missing', (_name, claim, value) => {
    const missing = single(null, undefined, { absent: 'Noise covers it.' });
    const pairs = [
      [missing, single(0.01, half)],
      [single(value / 100, half), missing],
      [single(value / 100), missing],
      [missing, missing],
    ] as const;
    for (const [of, reference] of pairs) {
      const judgement = judge(claim, of, reference);
      expect(judgement).toMatchObject({ outcome: 'no data', absent: 'Noise covers it.' });
      expect(isBorneOut(claim, judgement)).toBe(false);
    }
  });

  test.each(cases)('%s is told of exact figures by their values alone', (_name, claim, ...values) => {
    const found = values.map((value) => {
      return judge(claim, exactly(figure(value / 100)), exactly(figure(0.01))).outcome;
    });
    expect([found[0], found[2]]).toEqual([saidOf(claim, values[2] > 1)[0], saidOf(claim, values[2] > 1)[2]]);
  });
});

describe('a claim beside 1 % ± 0.05 %', () => {
  test.each(table.map((row) => [names.get(row[0]), ...row] as const))(
    '%s, of a figure %#: %d %% ± %s',
    (_name, claim, value, half, outcome) => {
      const of = single(value / 100, half === undefined ? undefined : half / 100);
      expect(judge(claim, of, single(0.01, 0.0005)).outcome).toBe(outcome);
    },
  );

  test.each([...names].map(([claim, name]) => [name, claim] as const))(
    '%s has no data where either figure is missing, and says why',
    (_name, claim) => {
      const missing = single(null, undefined, { absent: 'Noise covers it.' });
      const there = single(0.01, 0.0005);
      for (const found of [judge(claim, missing, there), judge(claim, there, missing)]) {
        expect(found).toMatchObject({ outcome: 'no data', absent: 'Noise covers it.' });
        expect(foundText(found)).toBe('Noise covers it.');
      }
    },
  );

  test('cannot be told where noise alone may have made the figure and its interval reaches the reference', () => {
    const noisy = singleMeasured(figure(0.004, undefined, { low: 0, high: 0.011 }));
    expect(judge(lower, noisy, single(0.01, 0.0005)).outcome).toBe('cannot be told apart');
  });
});

test('known scatter decides where the records alone would not: repeats that scatter widely are not told apart', () => {
  expect(judge(lower, single(0.008, 0.0001), single(0.01, 0.0001)).outcome).toBe('holds');
  expect(judge(lower, repeated(0.008, 0.002), repeated(0.01, 0.002)).outcome).toBe('cannot be told apart');
});

test('a margin moves the scatter of repeats with it', () => {
  // 100 times 0.01 % is 1 %, and its scatter of 0.001 % becomes 0.1 %, as wide as the distance asks for.
  const hundredfold: Claim = { relation: 'lower', margin: { kind: 'share', ratio: 0.99 } };
  const unmoved = judge(hundredfold, repeated(0.00005, 1e-6), repeated(0.01, 1e-4));
  expect(unmoved.outcome).toBe('holds');
  expect(judge(hundredfold, repeated(0.000095, 1e-6), repeated(0.01, 1e-3)).outcome).toBe(
    'cannot be told apart',
  );
});

test('a stated value is exact, so that the figure’s own interval decides', () => {
  const stated = exactly(figure(0.01));
  expect(judge(lower, single(0.0099, 0.00005), stated).outcome).toBe('holds');
  expect(judge(lower, single(0.0099, 0.0002), stated).outcome).toBe('cannot be told apart');
  expect(judge(lower, single(0.0101, 0.00005), stated).outcome).toBe('does not hold');
  expect(foundText(judge(lower, single(0.005, 0.0001), stated))).toMatch(/compared with 1\.00\u00a0%,/);
});

test('decibels of a power count ten to the decade, those of a voltage twenty, and those of decibels are added', () => {
  const sides = (id: string, unit: string, value: number) =>
    judge(
      { relation: 'lower', margin: { kind: 'decibels', decibels: 10 } },
      exactly(figure(value, undefined, { id, unit })),
      exactly(figure(10, undefined, { id, unit })),
    ).outcome;
  expect(sides('largest-power', 'W', 0.99)).toBe('holds');
  expect(sides('largest-power', 'W', 1.01)).toBe('does not hold');
  // 10 dB below 10 V is 3.162 V.
  expect(sides('level-at-1khz', 'V', 3.15)).toBe('holds');
  expect(sides('level-at-1khz', 'V', 3.17)).toBe('does not hold');
  expect(sides('sinad', 'dB', -0.1)).toBe('holds');
  expect(sides('sinad', 'dB', 0.1)).toBe('does not hold');
});

test('an amount is taken off or added in the figure’s own unit', () => {
  const claim: Claim = { relation: 'higher', margin: { kind: 'amount', value: 2, unit: 'W' } };
  const watts = (value: number) => exactly(figure(value, undefined, { id: 'largest-power', unit: 'W' }));
  expect(judge(claim, watts(5.1), watts(3)).outcome).toBe('holds');
  expect(judge(claim, watts(4.9), watts(3)).outcome).toBe('does not hold');
});

describe('over a band a claim', () => {
  const pairs = (...values: (number | null)[]) =>
    values.map((value, index) => ({
      at: `place ${index + 1}`,
      of: single(value, value === null ? undefined : 0.0005, { absent: 'Not reached.' }),
      reference: single(0.01, 0.0005),
    }));

  test('holds where it holds at every place', () => {
    expect(judgeClaim(lower, pairs(0.005, 0.006))).toMatchObject({ outcome: 'holds', places: 2, alike: 2 });
  });

  test('does not hold where it fails anywhere, and the first such place is shown', () => {
    const found = judgeClaim(lower, pairs(0.005, 0.015, 0.01, 0.016));
    expect(found).toMatchObject({
      outcome: 'does not hold',
      places: 4,
      alike: 2,
      decisive: { at: 'place 2' },
    });
    expect(foundText(found)).toContain('THD at place 2 is');
    expect(foundText(found)).toContain('the first of 2 such places out of 4');
  });

  test('cannot be told where one place cannot and none fails', () => {
    expect(judgeClaim(lower, pairs(0.005, 0.01)).outcome).toBe('cannot be told apart');
  });

  test('has no data where one place has none', () => {
    expect(judgeClaim(lower, pairs(0.005, null))).toMatchObject({
      outcome: 'no data',
      absent: 'Not reached.',
    });
  });
});

test('equality counts as borne out only while no difference shows between figures that have intervals', () => {
  const borne = (value: number, half?: number) =>
    isBorneOut(equal, judge(equal, single(value, half), single(0.01, 0.0005)));
  expect(borne(0.01, 0.0005)).toBe(true);
  expect(borne(0.02, 0.0005)).toBe(false);
  expect(borne(0.01)).toBe(false);
});
