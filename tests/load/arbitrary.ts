import fc from 'fast-check';
import { type OutputDescription, type SpeakerSweep, tracedFamily } from '../../src/load/index.ts';

/** Evenly over the logarithm. */
export const spread = (low: number, high: number) =>
  fc.double({ min: Math.log(low), max: Math.log(high), noNaN: true }).map(Math.exp);

export const optional = (low: number, high: number) => fc.option(spread(low, high));

/** Every number of a value, with the path to it. */
export function numbersOf(value: unknown, path = ''): { path: string; value: number }[] {
  if (typeof value === 'number') return [{ path, value }];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersOf(inner, `${path}.${key}`));
}

const sweep: fc.Arbitrary<SpeakerSweep> = fc
  .record({
    points: fc.array(
      fc.record({
        ohm: spread(1, 100),
        phaseDeg: fc.double({ min: -75, max: 75, noNaN: true }),
      }),
      { minLength: 2, maxLength: 12 },
    ),
    withPhase: fc.boolean(),
  })
  .map(({ points, withPhase }) => ({
    name: 'random.csv',
    frequencyHz: points.map((_, k) => 15 * 1.9 ** k),
    ohm: points.map(({ ohm }) => ohm),
    phaseDeg: withPhase ? points.map(({ phaseDeg }) => phaseDeg) : null,
  }));

/** A transformer and what is on it, as a maker might state them. */
export const output: fc.Arbitrary<OutputDescription> = fc.record({
  transformer: fc.record({
    name: fc.constant('Any transformer'),
    turnsRatio: spread(2, 80),
    nominalOhm: fc.constantFrom(4, 8, 16, null),
    primaryOhm: optional(1, 1000),
    secondaryOhm: optional(0.01, 2),
    primaryH: optional(1, 200),
    leakageH: optional(1e-4, 0.1),
    ratedPower: fc.option(fc.record({ watt: spread(1, 200), frequencyHz: spread(15, 100) })),
    ratedDirectA: optional(0.01, 0.3),
  }),
  primaryShare: fc.constantFrom(1, 1, 0.7, 0.4),
  speakerOhm: spread(2, 32),
  sweep: fc.option(sweep),
});

/** Random readings: nothing says that they belong to a tube. `odd` puts in what no tracer writes. */
export const readings = (odd: (usual: fc.Arbitrary<number>) => fc.Arbitrary<number> = (usual) => usual) =>
  fc
    .array(
      fc.record({
        plateV: odd(fc.constantFrom(0, 10, 50, 120, 250, 400, 700)),
        gridV: fc.constantFrom(0, -10, -25, -61, -90),
        plateA: odd(spread(1e-5, 0.3)),
        screenA: spread(1e-5, 0.03),
      }),
      { minLength: 1, maxLength: 40 },
    )
    .map((points) =>
      tracedFamily('random.csv', {
        plateV: points.map(({ plateV }) => plateV),
        gridV: points.map(({ gridV }) => gridV),
        plateA: points.map(({ plateA }) => plateA),
        screenA: points.map(({ screenA }) => screenA),
      }),
    );
