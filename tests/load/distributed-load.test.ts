import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { tapped } from '../../src/load/device/connections.ts';
import { type Device, deviceOf, smallSignal, type TubeStageDescription } from '../../src/load/index.ts';
import { check, faultsOf, offBy, pentode, sheetOf, tube } from './support-devices.ts';

const stage: TubeStageDescription = {
  ...pentode,
  device: 'KT88',
  connection: 'distributed-load',
  tapRatio: 0.43,
  plateV: 350,
  screenV: null,
  bias: { kind: 'grid', gridV: -35 },
  loadOhm: 4000,
};

describe('the ends of the winding', () => {
  test('a tap at 0 % is the pentode with its screen at the plate supply', () => {
    const tap = sheetOf({ ...stage, tapRatio: 0 });
    const own = sheetOf({ ...stage, connection: 'pentode', tapRatio: null, screenV: 350 });
    expect(tap.operatingPoint).toEqual(own.operatingPoint);
    expect(tap.atLoad).toEqual(own.atLoad);
    expect(tap.sweep).toEqual(own.sweep);
  });

  test('a tap at 100 % is the triode connection', () => {
    const tap = sheetOf({ ...stage, tapRatio: 1 });
    const strapped = sheetOf({ ...stage, connection: 'triode', tapRatio: null });
    for (const key of ['powerW', 'thdRatio', 'driveV', 'efficiency', 'averagePlateA'] as const) {
      // Both devices compute the same sums; what differs is rounding.
      expect(offBy(tap.atLoad?.[key] ?? 0, strapped.atLoad?.[key] ?? 0), key).toBeLessThan(1e-9);
    }
    expect(offBy(tap.operatingPoint?.rpOhm ?? 0, strapped.operatingPoint?.rpOhm ?? 0)).toBeLessThan(1e-7);
  });

  test('between them the plate resistance falls with every turn', () => {
    const at = [0, 0.2, 0.43, 0.7, 1].map((tapRatio) => sheetOf({ ...stage, tapRatio }));
    const resistances = at.map(({ operatingPoint }) => operatingPoint?.rpOhm ?? 0);
    expect(resistances.toSorted((a, b) => b - a)).toEqual(resistances);
  });
});

describe('the plate resistance in distributed load', () => {
  const at = { plateV: 350, screenV: 350, gridV: -35 };
  const electrodes = deviceOf(tube('KT88'), 'pentode');
  /** Central difference, 10 mV to either side: good to a part in 10⁶ here. */
  const slopeOf = (current: keyof Pick<Device, 'plateCurrent' | 'screenCurrent'>, key: keyof typeof at) =>
    (electrodes[current]({ ...at, [key]: at[key] + 0.01 }) -
      electrodes[current]({ ...at, [key]: at[key] - 0.01 })) /
    0.02;

  test('is that of the four slopes of the electrodes weighted by the tap (derived: chain rule)', () => {
    const x = 0.43;
    const slopes =
      slopeOf('plateCurrent', 'plateV') +
      x * slopeOf('plateCurrent', 'screenV') +
      x * slopeOf('screenCurrent', 'plateV') +
      x * x * slopeOf('screenCurrent', 'screenV');
    const { rpOhm } = smallSignal(tapped(electrodes, x, at), at);
    expect(offBy(rpOhm ?? 0, 1 / slopes)).toBeLessThan(1e-5);
  });

  test('is rp/(1 + x·mu of the screen) where the screen draws nothing (derived: screen as a second grid)', () => {
    const bare: Device = { ...electrodes, screenCurrent: () => 0 };
    const rp = 1 / slopeOf('plateCurrent', 'plateV');
    const screenMu = slopeOf('plateCurrent', 'screenV') * rp;
    const { rpOhm } = smallSignal(tapped(bare, 0.43, at), at);
    expect(offBy(rpOhm ?? 0, rp / (1 + 0.43 * screenMu))).toBeLessThan(1e-5);
  });
});

test('18.5 % of the impedance is 43.01 % of the turns (from memory: Hafler and Keroes, 1951)', () => {
  const { given, expected } = check<{ impedanceRatio: number }, { turnsRatio: number }>('tap-18.5-percent');
  const { explanation, tapRatio } = sheetOf({ ...stage, tapRatio: Math.sqrt(given.impedanceRatio) });
  expect(tapRatio).toBeCloseTo(expected.turnsRatio, 4); // four digits printed
  expect(explanation.join('\n').replaceAll('\u00a0', ' ')).toContain(
    'follows the plate at 43 % of its swing, and its signal current works through that share of the turns; ' +
      'as a share of the impedance the tap stands at 18.5 %',
  );
});

test('the operating point shows the currents of the electrodes themselves', () => {
  const { operatingPoint } = sheetOf(stage);
  const own = deviceOf(tube('KT88'), 'pentode');
  const at = { plateV: 350, screenV: 350, gridV: -35 };
  expect(operatingPoint).toMatchObject({
    ...at,
    plateA: own.plateCurrent(at),
    screenA: own.screenCurrent(at),
  });
});

test('plate, screen and load use the power of the supply to 0.1 %, whatever the tap and the drive', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 2, max: 34, noNaN: true }),
      (tapRatio, driveV) => {
        const { atLoad } = sheetOf({ ...stage, tapRatio, driveV });
        if (!atLoad) throw new Error('no figures at the load');
        const { balance } = atLoad;
        expect(
          offBy(balance.loadW + balance.plateW + balance.feedW + balance.cathodeW, balance.supplyW),
        ).toBeLessThan(1e-3);
      },
    ),
    { numRuns: 20, seed: 43 },
  );
});

test('what plate and screen turn into heat is what the load leaves of both supply currents', () => {
  const x = 0.43;
  const rest = { plateV: 350, screenV: 350 };
  const device = tapped(deviceOf(tube('KT88'), 'pentode'), x, rest);
  for (const [plateV, gridV] of [
    [100, -2],
    [350, -35],
    [600, -60],
  ] as const) {
    const at = { plateV, screenV: 350, gridV };
    const inside = device.inside?.(at);
    if (!inside) throw new Error('the connection says nothing of its electrodes');
    const heat = plateV * inside.plateA + inside.screenV * inside.screenA;
    const supplied = 350 * (inside.plateA + inside.screenA);
    // Ampere-turns: the load takes what its voltage and the current that counts in the winding make. Rounding only.
    expect(offBy(supplied - (350 - plateV) * device.plateCurrent(at), heat)).toBeLessThan(1e-12);
  }
});

describe('faults', () => {
  test.each([
    ['no tap', { tapRatio: null }, 'load/missing-value', 'stages.0.tapTurns'],
    ['a tap off the winding', { tapRatio: 1.2 }, 'load/out-of-range', 'stages.0.tapTurns'],
    ['a tap that is no number', { tapRatio: Number.NaN }, 'load/out-of-range', 'stages.0.tapTurns'],
    ['a tap on a pentode', { connection: 'pentode', screenV: 350 }, 'load/connection', 'stages.0.tapTurns'],
    ['a triode', { device: '300B' }, 'load/connection', 'stages.0.connection'],
  ] as const)('%s', (_, change, rule, path) => {
    expect(faultsOf({ ...stage, ...change })).toContainEqual([rule, path]);
  });
});
