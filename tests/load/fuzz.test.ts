import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Bias, loadSheet, type StageDescription, type SupplyDescription } from '../../src/load/index.ts';
import { numbersOf, optional, spread } from './arbitrary.ts';
import { stageDiagram, tubeSheet, tubes } from './support.ts';

const bias: fc.Arbitrary<Bias> = fc.oneof(
  fc.double({ min: -150, max: 5, noNaN: true }).map((gridV) => ({ kind: 'grid', gridV }) as const),
  fc
    .record({ ohm: spread(5, 50e3), bypassed: fc.boolean() })
    .map(({ ohm, bypassed }) => ({ kind: 'cathode-resistor', ohm, bypassed }) as const),
  spread(1e-4, 0.5).map((plateA) => ({ kind: 'current', plateA }) as const),
);

const stage: fc.Arbitrary<StageDescription> = fc.record({
  id: fc.constant('any'),
  topology: fc.constantFrom('single-ended' as const, 'resistance-coupled' as const),
  device: fc.constantFrom(...Object.keys(tubes), 'unknown'),
  connection: fc.constantFrom('triode' as const, 'pentode' as const),
  plateV: optional(1, 2000),
  supplyV: optional(1, 2000),
  screenV: optional(1, 800),
  bias,
  plateResistorOhm: optional(1, 1e6),
  nextGridLeakOhm: optional(1e3, 1e7),
  screenResistorOhm: optional(10, 1e7),
  couplingCapacitorF: optional(1e-10, 1e-5),
  bypassCapacitorF: optional(1e-6, 1e-2),
  loadOhm: optional(1, 1e6),
  driveV: optional(1e-3, 300),
  statedPowerW: optional(1e-3, 100),
  statedDistortionRatio: optional(1e-3, 0.5),
  offers: fc.array(
    fc.record({
      ...{ part: fc.constant('parts/any'), name: fc.constant('Any') },
      onto: fc.constantFrom('least' as const, '1 kHz' as const, null),
      ...{ turnsRatio: spread(0.1, 1000), speakerOhm: optional(0.1, 1e4), loadOhm: optional(1e-3, 1e12) },
      ...{ ratedDirectA: optional(1e-3, 1), unknownUse: fc.boolean() },
    }),
    { maxLength: 2 },
  ),
});

const supply: fc.Arbitrary<SupplyDescription | null> = fc.option(
  fc.record({
    plateV: optional(1, 2000),
    currentA: optional(1e-5, 5),
    sourceResistanceOhm: optional(1, 1e4),
    mainsHz: fc.constantFrom(50, 60, null),
    offLoadV: optional(1, 2000),
    capacitors: fc.array(
      fc.record({
        capacitanceF: spread(1e-8, 0.1),
        ratedV: optional(10, 1000),
        workingV: optional(10, 1000),
        bleederOhm: optional(10, 1e8),
        seriesOhm: optional(0.1, 1e6),
      }),
      { maxLength: 5 },
    ),
  }),
);

const neverNegative = /(W|powerW|Ratio|ratio|efficiency|loadOhm|storedEnergyJ|timeTo\d+VoltsS|share)$/;

test('whatever the stage and supply, every number is finite and no power, ratio or time is negative', () => {
  fc.assert(
    fc.property(stage, supply, (description, described) => {
      const sheet = loadSheet([description], described, tubes);
      for (const { path, value } of numbersOf(sheet)) {
        expect(Number.isFinite(value), `${path} = ${value}`).toBe(true);
        if (neverNegative.test(path)) expect(value, path).toBeGreaterThanOrEqual(0);
      }
      for (const { path, value } of numbersOf(stageDiagram(description, described))) {
        expect(Number.isFinite(value), `${path} = ${value}`).toBe(true);
      }
      expect(JSON.stringify(sheet.stages.map(({ explanation }) => explanation))).not.toMatch(
        /NaN|Infinity|undefined/,
      );
    }),
    { numRuns: 300, seed: 20 },
  );
});

test('whatever the stage, the power from the supply is all accounted for', () => {
  fc.assert(
    fc.property(stage, supply, (description, described) => {
      const balance = tubeSheet(loadSheet([description], described, tubes).stages[0]).atLoad?.balance;
      if (!balance) return;
      expect(Math.min(...Object.values(balance))).toBeGreaterThanOrEqual(0);
      const spent = balance.loadW + balance.plateW + balance.feedW + balance.cathodeW;
      expect(Math.abs(spent - balance.supplyW)).toBeLessThanOrEqual(1e-3 * balance.supplyW); // 0.1 %
    }),
    { numRuns: 300, seed: 21 },
  );
});

test('numbers that no stage can have are faults, not exceptions', () => {
  const odd = fc.constantFrom(
    Number.NaN,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    -0,
    1e308,
    5e-324,
  );
  fc.assert(
    fc.property(
      stage,
      odd,
      fc.constantFrom('plateV', 'screenV', 'loadOhm', 'driveV', 'plateResistorOhm'),
      (description, value, key) => {
        const sheet = loadSheet([{ ...description, [key]: value }], null, tubes);
        for (const { path, value: number } of numbersOf(sheet)) {
          expect(Number.isFinite(number), `${path} = ${number}`).toBe(true);
        }
      },
    ),
    { numRuns: 100, seed: 22 },
  );
});
