import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  loadSheet,
  type PushPullDescription,
  type StageDescription,
  type SupplyDescription,
} from '../../src/load/index.ts';
import { numbersOf, optional, spread } from './arbitrary.ts';
import { resistanceCoupled, singleEnded, tubes } from './support.ts';

const pair: PushPullDescription = {
  id: 'pair',
  topology: 'push-pull',
  device: 'KT88',
  connection: 'triode',
  plateV: null,
  supplyV: null,
  screenV: null,
  bias: { kind: 'cathode-resistor', ohm: 250, bypassed: true },
  windingOhm: 50,
  loadOhm: 4000,
  driveV: null,
  powerW: null,
  mismatchRatio: 0.05,
};

const stages = fc.subarray<StageDescription>([
  { ...singleEnded, plateV: null },
  resistanceCoupled,
  pair,
  { ...pair, id: 'screens', connection: 'pentode', screenV: 300, mismatchRatio: 0 },
]);

const supply: fc.Arbitrary<SupplyDescription> = fc.record({
  plateV: optional(1, 2000),
  currentA: optional(1e-5, 5),
  sourceResistanceOhm: optional(0.1, 1e5),
  mainsHz: fc.constantFrom(50, 60, null),
  offLoadV: optional(1, 2000),
  rectifier: fc.constantFrom('full-wave', 'half-wave', 'bridge'),
  splitRails: fc.boolean(),
  channels: fc.integer({ min: 1, max: 8 }),
  capacitors: fc.array(
    fc.record({
      capacitanceF: spread(1e-9, 1),
      ratedV: optional(10, 1000),
      workingV: optional(10, 1000),
      bleederOhm: optional(10, 1e9),
      bleederRatedW: optional(1e-3, 1e6),
      section: fc.constantFrom('RC' as const, 'LC' as const, null),
      seriesOhm: optional(0.1, 1e9),
      seriesH: optional(1e-6, 1e4),
      sectionA: optional(1e-6, 100),
      feeds: fc.subarray(['output', 'driver', 'pair', 'nobody']),
    }),
    { maxLength: 6 },
  ),
  heaters: fc.array(
    fc.record({
      name: fc.constant('any'),
      voltageV: spread(0.1, 100),
      ratedA: optional(1e-3, 100),
      feeds: fc.array(
        fc.record({
          device: fc.constantFrom('12AX7', '2A3', 'EL84', 'KT88'),
          count: fc.integer({ min: 1, max: 100 }),
          currentA: optional(1e-6, 100),
        }),
        { maxLength: 4 },
      ),
    }),
    { maxLength: 2 },
  ),
});

const neverNegative =
  /(ohm|watt|Ohm|powerW|PowerW|atToleranceW|rippleVrms|peakToPeakV|resonanceHz|loadVrms|restA|fullA|totalA|share)$/;

test('whatever the supply and its stages, every number is finite and none that cannot be is negative', () => {
  fc.assert(
    fc.property(stages, supply, (described, source) => {
      const { supply: sheet, problems } = loadSheet(described, source, tubes);
      for (const { path, value } of numbersOf(sheet)) {
        expect(Number.isFinite(value), `${path} = ${value}`).toBe(true);
        if (neverNegative.test(path)) expect(value, path).toBeGreaterThanOrEqual(0);
      }
      expect(JSON.stringify([sheet?.explanation, sheet?.absent, problems])).not.toMatch(
        /NaN|Infinity|undefined|\bsafe\b/,
      );
      for (const key of ['ripple', 'bleederNeeded', 'drawn'] as const) {
        if (sheet && sheet[key] === null) expect(sheet.absent, key).toHaveProperty([key]);
      }
    }),
    { numRuns: 120, seed: 6 },
  );
}, 30_000);

test('whatever the filter, no section without a choke raises the ripple', () => {
  fc.assert(
    fc.property(supply, (source) => {
      const capacitors = source.capacitors.map((one) => ({ ...one, seriesH: null }));
      const { supply: sheet } = loadSheet([], { ...source, capacitors }, tubes);
      for (const { attenuationDb } of sheet?.ripple?.points ?? []) {
        expect(attenuationDb ?? 0).toBeGreaterThanOrEqual(-1e-9); // rounding
      }
    }),
    { numRuns: 200, seed: 7 },
  );
});
