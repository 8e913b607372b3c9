import fc from 'fast-check';
import { expect, test } from 'vitest';
import { loadSheet, type TubeStageDescription } from '../../src/load/index.ts';
import { numbersOf, readings, spread } from './arbitrary.ts';
import { singleEnded, stageDiagram, tubeSheet, tubes } from './support.ts';

const odd = fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, -1, 0, 1e308, 5e-324);
const mostly = (usual: fc.Arbitrary<number>) => fc.oneof({ weight: 19, arbitrary: usual }, odd);

const rarely = <T>(odds: number, arbitrary: fc.Arbitrary<T>) =>
  fc.oneof({ weight: odds, arbitrary: fc.constant(null) }, { weight: 1, arbitrary });

const change = fc.record({
  device: fc.constantFrom(...Object.keys(tubes), 'unknown'),
  connection: fc.constantFrom('triode' as const, 'pentode' as const, 'distributed-load' as const),
  plateV: mostly(spread(20, 600)),
  screenV: fc.option(spread(20, 500)),
  bias: fc.constantFrom(
    { kind: 'grid', gridV: -20 } as const,
    { kind: 'cathode-resistor', ohm: 470, bypassed: true } as const,
    { kind: 'cathode-resistor', ohm: 300, bypassed: false } as const,
    { kind: 'current', plateA: 0.03 } as const,
  ),
  loadOhm: fc.option(spread(100, 1e5)),
  driveV: fc.option(spread(0.1, 100)),
  tapRatio: fc.option(mostly(fc.double({ min: 0, max: 1, noNaN: true }))),
  count: fc.option(fc.constantFrom(1, 2, 3, 1, 2, 3, 16, 40)),
  gridLeakOhm: fc.option(mostly(spread(1e4, 1e7))),
  measured: fc.option(
    fc.record({
      plateA: mostly(spread(1e-4, 1)),
      cathodeV: fc.option(mostly(spread(0.1, 100))),
      plateV: fc.option(mostly(spread(1, 600))),
      rescale: fc.boolean(),
    }),
  ),
  curves: rarely(2, readings(mostly)),
  smallSignal: rarely(
    9,
    fc.record({
      mu: fc.option(mostly(spread(1, 200))),
      plateResistanceOhm: fc.option(mostly(spread(100, 1e6))),
      transconductanceS: fc.option(mostly(spread(1e-4, 0.1))),
    }),
  ),
  contradictory: rarely(9, fc.constant(true)),
});

/** Mostly a tap with distributed load alone. */
const stage = change.map(({ contradictory, tapRatio, ...changed }): TubeStageDescription => {
  const tapped = changed.connection === 'distributed-load' || contradictory !== null;
  return { ...singleEnded, ...changed, tapRatio: tapped ? tapRatio : null };
});

const neverNegative = /(powerW|thdRatio|secondRatio|efficiency|loadOhm|share|factor|currentFactor)$/;

test('whatever is connected, traced, measured or typed, every number is finite and powers add up', () => {
  let computed = 0;
  fc.assert(
    fc.property(stage, (description) => {
      const sheet = loadSheet([description], null, tubes);
      const diagram = stageDiagram(description);
      for (const { path, value } of [...numbersOf(sheet), ...numbersOf(diagram)]) {
        expect(Number.isFinite(value), `${path} = ${value}`).toBe(true);
        if (neverNegative.test(path)) expect(value, path).toBeGreaterThanOrEqual(0);
      }
      expect(JSON.stringify(sheet.stages)).not.toMatch(/NaN|Infinity|undefined/);
      const balance = tubeSheet(sheet.stages[0])?.atLoad?.balance;
      if (!balance) return;
      computed += 1;
      const spent = balance.loadW + balance.plateW + balance.feedW + balance.cathodeW;
      expect(Math.abs(spent - balance.supplyW)).toBeLessThanOrEqual(1e-3 * balance.supplyW); // 0.1 %
    }),
    { numRuns: 300, seed: 11 },
  );
  expect(computed).toBeGreaterThan(20);
});
