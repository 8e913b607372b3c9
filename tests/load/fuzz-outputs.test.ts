import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Bias, loadResult, type StageDescription } from '../../src/load/index.ts';
import { numbersOf, optional, output, readings, spread } from './arbitrary.ts';
import { tubes } from './support.ts';

const bias: fc.Arbitrary<Bias> = fc.oneof(
  fc.double({ min: -100, max: 2, noNaN: true }).map((gridV) => ({ kind: 'grid', gridV }) as const),
  spread(20, 5e3).map((ohm) => ({ kind: 'cathode-resistor', ohm, bypassed: true }) as const),
  spread(1e-3, 0.2).map((plateA) => ({ kind: 'current', plateA }) as const),
);
const unbypassed = spread(20, 5e3).map(
  (ohm) => ({ kind: 'cathode-resistor', ohm, bypassed: false }) as const,
);
const rarely = <T>(arbitrary: fc.Arbitrary<T>) =>
  fc.oneof({ weight: 3, arbitrary: fc.constant(null) }, { weight: 1, arbitrary });

const common = {
  id: fc.constant('any'),
  device: fc.constantFrom('300B', 'EL34', 'KT88', '6L6GC', '2A3', '6550', 'unknown'),
  connection: fc.constantFrom('triode' as const, 'pentode' as const, 'distributed-load' as const),
  tapRatio: fc.constantFrom(null, 0.43, 0.2),
  count: fc.constantFrom(1, 1, 2),
  plateV: optional(50, 600),
  supplyV: spread(100, 700),
  screenV: optional(50, 500),
  driveV: rarely(spread(0.1, 200)),
  curves: rarely(readings()),
  output,
};
const loadOhm = fc.oneof(
  { weight: 9, arbitrary: fc.constant(null) },
  { weight: 1, arbitrary: spread(100, 1e5) },
);

const stage: fc.Arbitrary<StageDescription> = fc.oneof(
  fc.record({
    ...common,
    topology: fc.constantFrom(
      'single-ended' as const,
      'single-ended' as const,
      'resistance-coupled' as const,
    ),
    bias: fc.oneof(bias, unbypassed),
    plateResistorOhm: optional(10, 5e3),
    nextGridLeakOhm: fc.constant(null),
    loadOhm,
  }),
  fc.record({
    ...common,
    topology: fc.constant('push-pull' as const),
    bias,
    windingOhm: optional(1, 500),
    loadOhm,
    powerW: rarely(spread(0.1, 100)),
    mismatchRatio: fc.constantFrom(0, 0, 0.1, 1),
  }),
);

const neverNegative = /(W|powerW|speakerW|Ratio|efficiency|loadOhm|outputOhm|frequencyHz|share|Share)$/;

test('whatever stands behind a transformer, every number is finite and no power, ratio or share is negative', () => {
  let computed = 0;
  let refused = 0;
  fc.assert(
    fc.property(stage, (description) => {
      const { sheet: whole, diagrams } = loadResult([description], null, tubes);
      const { stages, problems } = whole;
      const [sheet] = stages;
      for (const { path, value } of numbersOf([stages, diagrams])) {
        expect(Number.isFinite(value), `${path} = ${value}`).toBe(true);
        if (neverNegative.test(path)) expect(value, path).toBeGreaterThanOrEqual(0);
      }
      expect(JSON.stringify(stages)).not.toMatch(/NaN|Infinity|undefined/);
      for (const { path, message, hint } of problems) {
        expect(path.slice(0, 2)).toEqual(['stages', 0]);
        expect(message).toMatch(/\.$/);
        expect(hint).not.toBe('');
      }
      if (sheet && 'output' in sheet && sheet.output) computed++;
      const errors = problems.filter(({ severity }) => severity !== 'warning');
      if (sheet && 'operatingPoint' in sheet && sheet.operatingPoint === null) {
        refused++;
        expect(errors.length).toBeGreaterThan(0);
      }
    }),
    { numRuns: 120, seed: 51 },
  );
  // Neither half of the property must hold for want of stages.
  expect(computed).toBeGreaterThan(20);
  expect(refused).toBeGreaterThan(20);
}, 60_000);
