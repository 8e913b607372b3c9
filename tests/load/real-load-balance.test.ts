import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Bias, driveFor, type OutputDescription } from '../../src/load/index.ts';
import { type Complex, modulus, real, times } from '../../src/load/output/complex.ts';
import { complexPeriod, type Period } from '../../src/load/output/complex-period.ts';
import { throughTransformer } from '../../src/load/output/output-stage.ts';
import { turnsInUse } from '../../src/load/output/output-transformer.ts';
import { seenFromPlate } from '../../src/load/output/speaker-impedance.ts';
import { pairPeriod } from '../../src/load/push-pull/pair-period.ts';
import { pairDrive } from '../../src/load/push-pull/push-pull-drive.ts';
import { resolvePair } from '../../src/load/push-pull/push-pull-stage.ts';
import { resolveStage, signalLoad } from '../../src/load/stage/resting-stage.ts';
import { tubePeriod } from '../../src/load/stage/tube-period.ts';
import type { PushPullDescription, TubeStageDescription } from '../../src/load/types.ts';
import { output, spread } from './arbitrary.ts';
import { singleEnded, tubes } from './support.ts';

/** Power in an impedance by order, with the resistance that stands in for it above the twelfth. */
function loadPower<Instant>(
  { currents, instants }: Period<Instant>,
  { loadA, impedance }: { loadA: (instant: Instant) => number; impedance: (order: number) => Complex },
): number {
  const first = impedance(1);
  const above = Math.max(first.re, 0.2 * modulus(first));
  const squares = currents.map(({ re, im }, order) => (re * re + im * im) / (order === 0 ? 1 : 2));
  const meanSquare = meanOf(instants, (at) => loadA(at) ** 2);
  const left = meanSquare - squares.reduce((sum, square) => sum + square, 0);
  const orders = squares.map((square, order) => (order === 0 ? 0 : square * impedance(order).re));
  return orders.reduce((sum, power) => sum + power, above * left);
}

const meanOf = <Instant>(instants: readonly Instant[], value: (at: Instant) => number) =>
  instants.reduce((sum, at) => sum + value(at), 0) / instants.length;

/** Impedance at the plate by order; `share` is that of the turns in its way, squared. */
function impedanceAt(described: OutputDescription, hz: number, share: number) {
  const turns = turnsInUse(described.transformer, described.primaryShare);
  return (order: number) =>
    times(real(share), seenFromPlate(described, turns, Math.max(1, order) * hz).plateOhm);
}

const bias: fc.Arbitrary<Bias> = fc.oneof(
  fc.double({ min: -80, max: -5, noNaN: true }).map((gridV) => ({ kind: 'grid', gridV }) as const),
  spread(50, 2000).map((ohm) => ({ kind: 'cathode-resistor', ohm, bypassed: true }) as const),
);
const stage = {
  device: fc.constantFrom('300B', 'EL34', 'KT88', '6L6GC', '2A3'),
  plateV: spread(150, 450),
  bias,
  driveV: fc.option(spread(1, 60)),
};
const hz = spread(20, 20e3);

test('a tube on any transformer and loudspeaker spends what it takes from the supply, to 0.1 %', () => {
  let computed = 0;
  const cathode = fc.oneof(
    bias,
    spread(50, 2000).map((ohm) => ({ kind: 'cathode-resistor', ohm, bypassed: false }) as const),
  );
  fc.assert(
    fc.property(fc.record({ ...stage, bias: cathode }), output, hz, (parts, on, frequencyHz) => {
      const found = tubeBalance({ ...singleEnded, ...parts, loadOhm: null, output: on }, on, frequencyHz);
      if (!found) return;
      computed++;
      expect(Math.abs(found.spentW - found.supplyW)).toBeLessThan(1e-3 * found.supplyW);
    }),
    { numRuns: 150, seed: 41 },
  );
  expect(computed).toBeGreaterThan(40);
});

function tubeBalance(described: TubeStageDescription, on: OutputDescription, frequencyHz: number) {
  const description = throughTransformer(described);
  const resolved = resolveStage(description, { supply: null, tubes });
  const loadOhm = signalLoad(description);
  if ('faults' in resolved || loadOhm === null) return null;
  const { rest, feedOhm, cathode } = resolved.stage;
  const drive = driveFor(resolved.stage, loadOhm, description.driveV);
  const impedance = impedanceAt(on, frequencyHz, 1);
  const driven = drive && tubePeriod(resolved.stage, drive.driveV);
  const period = driven && complexPeriod(driven, impedance);
  if (!period) return null;
  const averageA = period.averages[0] ?? 0;
  const cathodeRestV = (cathode?.ohm ?? 0) * (rest.plateA + rest.screenA);
  const loadW = loadPower(period, { loadA: driven.loadA, impedance });
  const insideW = meanOf(
    period.instants,
    ({ plateA, plateV, cathodeRiseV }) => plateA * (plateV + cathodeRestV + cathodeRiseV),
  );
  return {
    supplyW: (rest.plateV + feedOhm * rest.plateA + cathodeRestV) * averageA,
    spentW: loadW + insideW + feedOhm * averageA ** 2,
  };
}

test('a pair on any transformer and loudspeaker spends what it takes from the supply, to 0.1 %', () => {
  let computed = 0;
  const mismatchRatio = fc.constantFrom(0, 0, 0.1, 0.4);
  fc.assert(
    fc.property(fc.record({ ...stage, mismatchRatio }), output, hz, (parts, on, frequencyHz) => {
      const found = pairBalance({ ...pair, ...parts, output: on }, on, frequencyHz);
      if (!found) return;
      computed++;
      expect(Math.abs(found.spentW - found.supplyW)).toBeLessThan(1e-3 * found.supplyW);
    }),
    { numRuns: 150, seed: 42 },
  );
  expect(computed).toBeGreaterThan(40);
});

const pair: PushPullDescription = {
  id: 'pair',
  topology: 'push-pull',
  device: '300B',
  connection: 'triode',
  plateV: 300,
  supplyV: null,
  screenV: null,
  bias: { kind: 'grid', gridV: -61 },
  windingOhm: null,
  loadOhm: null,
  driveV: null,
  powerW: null,
  mismatchRatio: 0,
};

function pairBalance(described: PushPullDescription, on: OutputDescription, frequencyHz: number) {
  const description = throughTransformer(described);
  const resolved = resolvePair(description, { supply: null, tubes });
  if ('faults' in resolved) return null;
  const { rest, feedOhm, cathodeOhm } = resolved.pair;
  const full = pairDrive(resolved.pair, resolved.loadOhm, description.driveV);
  const impedance = impedanceAt(on, frequencyHz, 1 / 4);
  const driven = full && pairPeriod(resolved.pair, full.cycle.driveV);
  const period = driven && complexPeriod(driven, impedance);
  if (!period) return null;
  const [first = 0, second = 0, cathodeA = 0] = period.averages;
  const loadW = loadPower(period, { loadA: driven.loadA, impedance });
  const platesW = meanOf(
    period.instants,
    (at) => at.firstA * at.first.plateV + at.secondA * at.second.plateV,
  );
  const restA = 2 * (rest.plateA + rest.screenA);
  return {
    supplyW: (rest.plateV + feedOhm * rest.plateA + cathodeOhm * restA) * (first + second),
    spentW: loadW + platesW + feedOhm * (first ** 2 + second ** 2) + cathodeOhm * cathodeA * (first + second),
  };
}
