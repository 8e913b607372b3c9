import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Bias, loadSheet, type PushPullDescription, type PushPullSheet } from '../../src/load/index.ts';
import { numbersOf, optional, spread } from './arbitrary.ts';
import { stageDiagram, tubes } from './support.ts';

const bias: fc.Arbitrary<Bias> = fc.oneof(
  fc.double({ min: -150, max: 5, noNaN: true }).map((gridV) => ({ kind: 'grid', gridV }) as const),
  spread(5, 50e3).map((ohm) => ({ kind: 'cathode-resistor', ohm, bypassed: true }) as const),
  spread(1e-4, 0.5).map((plateA) => ({ kind: 'current', plateA }) as const),
);

const pair: fc.Arbitrary<PushPullDescription> = fc.record({
  id: fc.constant('any'),
  topology: fc.constant('push-pull' as const),
  device: fc.constantFrom(...Object.keys(tubes), 'unknown'),
  connection: fc.constantFrom('triode' as const, 'pentode' as const, 'distributed-load' as const),
  tapRatio: fc.constantFrom(null, 0.2, 0.43),
  count: fc.constantFrom(1, 2, 0),
  plateV: optional(1, 2000),
  supplyV: optional(1, 2000),
  screenV: optional(1, 800),
  bias,
  windingOhm: optional(1, 2000),
  loadOhm: spread(1, 1e6),
  driveV: optional(1e-3, 300),
  powerW: optional(0.01, 1000),
  statedDistortionRatio: optional(1e-3, 0.5),
  mismatchRatio: fc.constantFrom(0, 0, 0.1, 1),
});

const pairSheet = (description: PushPullDescription): PushPullSheet =>
  loadSheet([description], null, tubes).stages[0] as PushPullSheet;

const neverNegative = /(W|Ratio|ratio|efficiency|Ohm|[sS]hare)$/;

test('whatever the pair, every number is finite and no power, ratio or share is negative', () => {
  let driven = 0;
  fc.assert(
    fc.property(pair, (description) => {
      const sheet = pairSheet(description);
      if (sheet.atLoad) driven++;
      for (const { path, value } of numbersOf(sheet)) {
        expect(Number.isFinite(value), `${path} = ${value}`).toBe(true);
        if (neverNegative.test(path)) expect(value, path).toBeGreaterThanOrEqual(0);
      }
      for (const { path, value } of numbersOf(stageDiagram(description))) {
        expect(Number.isFinite(value), `${path} = ${value}`).toBe(true);
      }
      expect(sheet.explanation.join(' ')).not.toMatch(/NaN|Infinity|undefined/);
      if (!sheet.atLoad) expect(sheet.absent['atLoad']).toMatch(/\.$/);
    }),
    { numRuns: 120, seed: 31 },
  );
  expect(driven).toBeGreaterThan(10);
});

test('whatever the pair, the power from the supply is all accounted for', () => {
  fc.assert(
    fc.property(pair, (description) => {
      const balance = pairSheet(description).atLoad?.balance;
      if (!balance) return;
      const spent = balance.loadW + balance.plateW + balance.feedW + balance.cathodeW;
      expect(Math.abs(spent - balance.supplyW)).toBeLessThanOrEqual(1e-3 * balance.supplyW); // 0.1 %
    }),
    { numRuns: 120, seed: 32 },
  );
});

test('numbers that no pair can have are faults, not exceptions', () => {
  const odd = fc.constantFrom(
    Number.NaN,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    -0,
    1e308,
    5e-324,
  );
  const key = fc.constantFrom(
    'plateV',
    'screenV',
    'loadOhm',
    'driveV',
    'windingOhm',
    'mismatchRatio',
    'count',
  );
  fc.assert(
    fc.property(pair, odd, key, (description, value, name) => {
      const sheet = loadSheet([{ ...description, [name]: value }], null, tubes);
      for (const { path, value: number } of numbersOf(sheet)) {
        expect(Number.isFinite(number), `${path} = ${number}`).toBe(true);
      }
    }),
    { numRuns: 80, seed: 33 },
  );
});
