import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type FollowerDescription, loadSheet, type SupplyDescription } from '../../src/load/index.ts';
import { classA, classAB, followerOf, path, there } from './follower-support.ts';

describe('temperatures', () => {
  test('add up from the air: the sink carries all transistors and what else is on it', () => {
    const { thermal, worst } = followerOf({ thermal: { ...path, otherW: 3 } }, classAB).sheet;
    const each = there(worst).deviceW;
    const { sinkC, caseC, junctionC } = there(thermal).worst;
    expect(sinkC).toBeCloseTo(40 + 2.2 * (2 * each + 3), 9);
    expect(caseC).toBeCloseTo(sinkC + 0.5 * each, 9);
    expect(junctionC).toBeCloseTo(caseC + 1.2 * each, 9);
  });

  test('with the required sink the junction is at its stated maximum at the worst output', () => {
    const sink = there(there(followerOf({}, classAB).sheet.thermal).requiredSink);
    const { thermal } = followerOf({ thermal: { ...path, sinkToAmbient: sink } }, classAB).sheet;
    expect(there(thermal).worst.junctionC).toBeCloseTo(150, 9);
  });

  test('no sink helps where the junction is too hot on an infinite one', () => {
    const { thermal } = followerOf({ thermal: { ...path, junctionToCase: 60 } }, classAB).sheet;
    expect(there(thermal).requiredSink).toBeNull();
  });

  test('are at their highest at the worst output, not at the largest sine of a pair', () => {
    const { rest, worst, largest } = there(followerOf({}, classAB).sheet.thermal);
    expect(worst.junctionC).toBeGreaterThan(largest.junctionC);
    expect(worst.junctionC).toBeGreaterThan(rest.junctionC);
  });

  test('are said to be below or above the stated maximum, and never safe', () => {
    const said = (maxJunctionC: number) =>
      followerOf({ thermal: { ...path, maxJunctionC } }, classAB).sheet.explanation.join(' ');
    expect(said(150)).toContain('below the stated maximum junction temperature of 150\u00a0°C');
    expect(said(60)).toContain('above the stated maximum junction temperature of 60\u00a0°C');
    expect(said(150)).not.toMatch(/\bsafe/i);
  });
});

describe('limits', () => {
  test('hold the stated ratings against the worst of the stage, with the source', () => {
    const { limits } = followerOf({}, classAB).sheet;
    expect(limits.map(({ limit, unit }) => `${limit} ${unit}`)).toEqual(['100 V', '8 A', '80 W', '150 °C']);
    expect(limits[0]?.value).toBeCloseTo(2 * 1.1 * 18, 9);
    expect(limits.every(({ source }) => source === 'invented')).toBe(true);
  });

  test('take the off-load voltage of the supply with the mains 10 % high, twice on split rails', () => {
    const supply = {
      plateV: 18,
      currentA: null,
      sourceResistanceOhm: null,
      mainsHz: 50,
      offLoadV: 20,
      capacitors: [],
    };
    expect(followerOf({ railV: null }, classAB, supply).sheet.limits[0]?.value).toBeCloseTo(44, 9);
    const single = followerOf({ railV: null, outputCapacitorF: 1e-3 }, classAB, supply);
    expect(single.sheet.limits[0]?.value).toBeCloseTo(22, 9);
  });

  test('that are passed are warnings at the key of the rating', () => {
    const ratings = { voltageV: 30, currentA: 1, powerW: 2, source: 'invented' };
    const { problems } = followerOf({ ratings, thermal: { ...path, maxJunctionC: 50 } }, classAB);
    expect(problems.map((problem) => problem.path.slice(2).join('.'))).toEqual([
      'ratings.voltage',
      'ratings.current',
      'ratings.power',
      'thermal.maxJunction',
    ]);
    expect(problems.every(({ severity }) => severity === 'warning')).toBe(true);
  });

  test('without ratings say that none is stated', () => {
    const { limits } = followerOf({ ratings: null, thermal: null }, classAB).sheet;
    expect(limits.map(({ limit, absent }) => [limit, absent])).toEqual(
      Array.from({ length: 3 }, () => [null, 'The stage states no rating for it.']),
    );
  });
});

describe('impossible stages', () => {
  const rejected: [string, Partial<FollowerDescription>, FollowerDescription, string][] = [
    ['no rail anywhere', { railV: null }, classAB, 'rails'],
    ['a loss of the whole rail', { lossV: 18 }, classAB, 'lossVoltage'],
    ['a follower whose emitter resistor takes the rail', { emitterOhm: 50 }, classA, 'lossVoltage'],
    ['a load of nothing', { loadOhm: 0 }, classAB, 'load'],
    ['a follower without current', { biasA: 0 }, classA, 'biasCurrent'],
    ['a junction below the air', { thermal: { ...path, maxJunctionC: 30 } }, classAB, 'thermal.maxJunction'],
    [
      'no way from the junction',
      { thermal: { ...path, junctionToCase: null }, ratings: null },
      classAB,
      'thermal.junctionToCase',
    ],
  ];

  test.each(rejected)('%s is an error at its key, and the sheet has reasons', (_, change, from, key) => {
    const { sheet, problems } = followerOf(change, from);
    expect(problems.map((problem) => problem.path.slice(2).join('.'))).toEqual([key]);
    expect(problems[0]?.severity ?? 'error').toBe('error');
    expect(sheet.largest).toBeNull();
    expect(sheet.absent.largest).toContain('no output');
  });

  test('a power beyond the largest sine is a warning, and its figures are absent with the reason', () => {
    const { sheet, problems } = followerOf({ powerW: 50 }, classAB);
    expect(problems.map(({ rule, path: at }) => [rule, at.at(-1)])).toEqual([
      ['load/beyond-clipping', 'power'],
    ]);
    expect(sheet.stated).toBeNull();
    expect(sheet.absent.stated).toContain('above the largest sine');
  });
});

const spread = (low: number, high: number) =>
  fc.double({ min: Math.log(low), max: Math.log(high), noNaN: true }).map(Math.exp);
const optional = (low: number, high: number) => fc.option(spread(low, high));
const odd = fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, -1, -0, 1e308, 5e-324);

const anyStage: fc.Arbitrary<FollowerDescription> = fc.record({
  id: fc.constant('any'),
  topology: fc.constantFrom('follower' as const, 'follower-pair' as const),
  railV: optional(0.2, 2000),
  outputCapacitorF: optional(1e-9, 1),
  loadOhm: spread(0.05, 1e6),
  emitterOhm: fc.oneof(fc.constant(0), spread(1e-3, 1e3)),
  biasA: fc.option(fc.oneof(fc.constant(0), spread(1e-7, 100))),
  sinkOhm: optional(0.1, 1e6),
  count: fc.integer({ min: 1, max: 20 }),
  lossV: fc.oneof(fc.constant(0), spread(0.01, 100)),
  powerW: optional(1e-6, 1e4),
  thermal: fc.option(
    fc.record({
      junctionToCase: optional(0.01, 100),
      caseToSink: spread(1e-3, 10),
      sinkToAmbient: spread(1e-3, 100),
      ambientC: fc.double({ min: -60, max: 100, noNaN: true }),
      maxJunctionC: fc.double({ min: -60, max: 400, noNaN: true }),
      devices: fc.option(fc.integer({ min: 1, max: 40 })),
      otherW: spread(1e-3, 100),
    }),
  ),
  ratings: fc.option(
    fc.record({
      voltageV: optional(1, 1000),
      currentA: optional(0.01, 100),
      powerW: optional(0.01, 1000),
      source: fc.constant('any'),
    }),
  ),
});

const anySupply: fc.Arbitrary<SupplyDescription | null> = fc.option(
  fc.record({
    plateV: optional(0.2, 2000),
    currentA: optional(1e-5, 50),
    sourceResistanceOhm: optional(0.01, 1e4),
    mainsHz: fc.constant(50),
    offLoadV: optional(1, 2000),
    capacitors: fc.constant([]),
  }),
);

function numbersOf(value: unknown, at = ''): { at: string; value: number }[] {
  if (typeof value === 'number') return [{ at, value }];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersOf(inner, `${at}.${key}`));
}

const allFinite = (sheet: unknown) => {
  for (const { at, value } of numbersOf(sheet)) {
    expect(Number.isFinite(value), `${at} = ${value}`).toBe(true);
    if (/(W|Ohm|efficiency|share|requiredSink|Hz)$/.test(at)) expect(value, at).toBeGreaterThanOrEqual(0);
  }
};

test('whatever the stage, every number is finite, no power is negative, and the energy is accounted for', () => {
  fc.assert(
    fc.property(anyStage, anySupply, (description, supply) => {
      const sheet = loadSheet([description], supply, {});
      allFinite(sheet);
      for (const state of followerOf({}, description, supply).sheet.byOutput) {
        const { supplyW, loadW, upperW, lowerW, emitterW } = state.balance;
        expect(Math.abs(supplyW - loadW - upperW - lowerW - emitterW)).toBeLessThanOrEqual(1e-3 * supplyW); // 0.1 %
      }
      expect(JSON.stringify(sheet)).not.toMatch(/NaN|Infinity|undefined/);
    }),
    { numRuns: 100, seed: 44 },
  );
});

test('numbers that no stage can have are faults, not exceptions', () => {
  const keys = ['railV', 'outputCapacitorF', 'loadOhm', 'emitterOhm', 'biasA', 'lossV', 'powerW'] as const;
  fc.assert(
    fc.property(anyStage, odd, fc.constantFrom(...keys), (description, value, key) => {
      allFinite(loadSheet([{ ...description, [key]: value }], null, {}));
    }),
    { numRuns: 100, seed: 45 },
  );
});
