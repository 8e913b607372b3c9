import { describe, expect, test } from 'vitest';
import { loadSheet, type SplitterDescription, type SplitterSheet } from '../../src/load/index.ts';
import { pairBalance, pairGains } from '../../src/load/splitter/long-tailed.ts';
import { pairSwing } from '../../src/load/splitter/long-tailed-swing.ts';
import {
  cathodeLoadedGains,
  cathodeLoadedRest,
  cathodeLoadedSwing,
} from '../../src/load/splitter/one-tube-splitter.ts';
import { nodeVoltages, noTube } from './circuit.ts';
import { linearTriode, offBy, spaceChargeTriode, tubes } from './support.ts';

const triode = { mu: 17, rpOhm: 7700 };
/** A plate or a tail that is a short circuit or an open one. */
const short = 1e-6;

/** Rounding of a solution node by node with a short circuit in it. */
const nodal = 1e-6;

const circuitOf = (plateOhm: number, cathodeOhm: number) => ({
  plateOhm,
  cathodeOhm,
  plateLoadOhm: plateOhm,
  cathodeLoadOhm: cathodeOhm,
});

describe('a cathode follower', () => {
  const { cathode } = cathodeLoadedGains(circuitOf(0, 22e3), triode);

  test('has the gain mu·Rk/(rp + (mu + 1)·Rk) and the source rp/(mu + 1) beside Rk (algebra)', () => {
    expect(offBy(cathode.gain, (17 * 22e3) / (7700 + 18 * 22e3))).toBeLessThan(1e-12); // the same formula
    const own = 7700 / 18;
    expect(offBy(cathode.outputOhm, (own * 22e3) / (own + 22e3))).toBeLessThan(1e-12);
  });

  test('agrees with its circuit solved node by node', () => {
    const circuit = {
      tubes: [triode, noTube] as [typeof triode, typeof noTube],
      plateOhms: [short, 1e30] as [number, number],
      cathodeOhm: 22e3,
    };
    expect(offBy(nodeVoltages(circuit, { gridV: 1 })[2], cathode.gain)).toBeLessThan(nodal);
    expect(offBy(nodeVoltages(circuit, { into: [0, 0, 1] })[2], cathode.outputOhm)).toBeLessThan(nodal);
  });
});

describe('a split-load stage', () => {
  const gains = cathodeLoadedGains(circuitOf(22e3, 22e3), triode);
  const circuit = {
    tubes: [triode, noTube] as [typeof triode, typeof noTube],
    plateOhms: [22e3, 1e30] as [number, number],
    cathodeOhm: 22e3,
  };

  test('has equal gains of mu·R/(rp + (mu + 2)·R) into equal resistors (algebra)', () => {
    expect(offBy(gains.plate.gain, (17 * 22e3) / (7700 + 19 * 22e3))).toBeLessThan(1e-12); // the same formula
    expect(gains.cathode.gain).toBe(gains.plate.gain);
  });

  test('is a low source at the cathode and a high one at the plate when one side alone is loaded', () => {
    expect(offBy(nodeVoltages(circuit, { into: [1, 0, 0] })[0], gains.plate.outputOhm)).toBeLessThan(nodal);
    expect(offBy(nodeVoltages(circuit, { into: [0, 0, 1] })[2], gains.cathode.outputOhm)).toBeLessThan(nodal);
    expect(gains.plate.outputOhm).toBeGreaterThan(10 * gains.cathode.outputOhm);
  });

  test('is the same low source on both sides when both are loaded alike', () => {
    // What is left of the open voltage with equal loads Z at both outputs is Z/(Z + Ro).
    const loadOhm = 10e3;
    const loaded = (22e3 * loadOhm) / (22e3 + loadOhm);
    const [open, , openAtCathode] = nodeVoltages(circuit, { gridV: 1 });
    const [plateV, , cathodeV] = nodeVoltages(
      { ...circuit, plateOhms: [loaded, 1e30], cathodeOhm: loaded },
      { gridV: 1 },
    );
    expect(offBy(loadOhm * (open / plateV - 1), gains.plate.togetherOhm ?? 0)).toBeLessThan(nodal);
    expect(offBy(loadOhm * (openAtCathode / cathodeV - 1), gains.cathode.togetherOhm ?? 0)).toBeLessThan(
      nodal,
    );
  });

  test('has no single source impedance for both sides where the resistors differ', () => {
    expect(cathodeLoadedGains(circuitOf(22e3, 20e3), triode).plate.togetherOhm).toBeNull();
  });
});

describe('a tube between plate and cathode resistor', () => {
  const device = linearTriode(17, 7700);

  test.each([
    ['a grid at 80 V', { kind: 'voltage', gridV: 80 } as const, (300 + 17 * 80) / (7700 + 22e3 + 18 * 22e3)],
    ['a leak below a bias resistor', { kind: 'tap', ohm: 2e3 } as const, 300 / (7700 + 44e3 + 17 * 2e3)],
  ])('with %s and straight characteristics rests where algebra says', (_, grid, plateA) => {
    const found = cathodeLoadedRest(device, circuitOf(22e3, 22e3), { supplyV: 300, grid });
    expect(offBy('rest' in found ? found.rest.plateA : 0, plateA)).toBeLessThan(1e-9); // the solver's tolerance
  });

  test('spends what the supply gives: plate, both resistors (energy balance)', () => {
    const circuit = circuitOf(22e3, 22e3);
    const found = cathodeLoadedRest(spaceChargeTriode(2e-6, 17), circuit, {
      supplyV: 300,
      grid: { kind: 'voltage', gridV: 80 },
    });
    if (!('rest' in found)) throw new Error('no rest');
    const { plateA, plateV } = found.rest;
    expect(offBy(plateV * plateA + 44e3 * plateA ** 2, 300 * plateA)).toBeLessThan(1e-9); // the solver's tolerance
  });

  test('without bend makes no harmonics, and gives its gain times the drive', () => {
    const circuit = circuitOf(22e3, 22e3);
    const found = cathodeLoadedRest(device, circuit, { supplyV: 300, grid: { kind: 'tap', ohm: 2e3 } });
    if (!('rest' in found)) throw new Error('no rest');
    const swing = cathodeLoadedSwing(device, found.rest, circuit);
    if ('reason' in swing) throw new Error(swing.reason);
    expect(swing.thdRatio).toBeLessThan(1e-9); // straight: rounding only
    const { plate } = cathodeLoadedGains(circuit, triode);
    expect(offBy(swing.fundamentalA * 22e3, plate.gain * swing.driveV)).toBeLessThan(1e-6); // root solver and projection
  });
});

describe('a long-tailed pair', () => {
  const tubesOf = [triode, triode] as const;
  const loads = [47e3, 47e3] as const;

  test.each([10e3, 82e3, 1e9])('on a tail of %d ohms agrees with its circuit solved node by node', (tail) => {
    const unequal = [
      { mu: 17, rpOhm: 7700 },
      { mu: 19, rpOhm: 8400 },
    ] as const;
    const { gains, outputOhms } = pairGains(unequal, [47e3, 51e3], [47e3, 51e3], tail);
    const circuit = {
      tubes: [...unequal] as [typeof triode, typeof triode],
      plateOhms: [47e3, 51e3] as [number, number],
      cathodeOhm: tail,
    };
    const [driven, other] = nodeVoltages(circuit, { gridV: 1 });
    expect(offBy(-driven, gains[0])).toBeLessThan(nodal);
    expect(offBy(other, gains[1])).toBeLessThan(nodal);
    expect(offBy(nodeVoltages(circuit, { into: [1, 0, 0] })[0], outputOhms[0])).toBeLessThan(nodal);
    expect(offBy(nodeVoltages(circuit, { into: [0, 1, 0] })[1], outputOhms[1])).toBeLessThan(nodal);
  });

  test('on a current source has half the gain of one tube at each plate, and balances (algebra)', () => {
    const found = pairGains(tubesOf, loads, loads, Number.POSITIVE_INFINITY);
    const half = (0.5 * 17 * 47e3) / (7700 + 47e3);
    expect(offBy(found.gains[0], half)).toBeLessThan(1e-12); // the same formula
    expect(offBy(found.gains[1], half)).toBeLessThan(1e-12);
    const balance = pairBalance(found, triode, {
      drivenLoadOhm: 47e3,
      otherLeakOhm: null,
      tail: Number.POSITIVE_INFINITY,
    });
    expect(balance.db).toBeCloseTo(0, 9); // rounding
    expect(balance.equalOhm).toBeCloseTo(47e3, 6);
  });

  test('on a tail gives less at the other plate, and the stated resistor there makes both equal', () => {
    const found = pairGains(tubesOf, loads, loads, 22e3);
    const balance = pairBalance(found, triode, { drivenLoadOhm: 47e3, otherLeakOhm: 470e3, tail: 22e3 });
    const expected = (47e3 * 18) / (47e3 * 18 + (47e3 * (7700 + 47e3)) / 22e3);
    expect(offBy(balance.ratio, expected)).toBeLessThan(1e-12); // the same formula
    expect(balance.ratio).toBeLessThan(1);
    const resistor = balance.equalOhm ?? 0;
    const otherLoad = (resistor * 470e3) / (resistor + 470e3);
    const mended = pairGains(tubesOf, [47e3, otherLoad], [47e3, resistor], 22e3);
    expect(offBy(mended.gains[1], mended.gains[0])).toBeLessThan(1e-9); // algebra, rounding
  });

  test('has no such resistor on a tail that is too small', () => {
    const found = pairGains(tubesOf, loads, loads, 1e3);
    expect(
      pairBalance(found, triode, { drivenLoadOhm: 47e3, otherLeakOhm: null, tail: 1e3 }).equalOhm,
    ).toBeNull();
  });

  test('of equal bent tubes on a current source makes the same third harmonic and no second at either plate', () => {
    const device = spaceChargeTriode(2e-6, 17);
    const at = { plateV: 200, screenV: 0, gridV: -4 };
    const rest = { ...at, plateA: device.plateCurrent(at), screenA: 0 };
    const swing = pairSwing({
      device,
      driven: rest,
      other: rest,
      cathodeV: 0,
      loads: [47e3, 47e3],
      tailOhm: Number.POSITIVE_INFINITY,
    });
    const [second, third] = swing?.driven.harmonics ?? [];
    const [otherSecond, otherThird] = swing?.other.harmonics ?? [];
    // What one tube gains the other loses: the two currents are mirror images, and so odd about rest.
    expect(second?.ratio).toBeLessThan(1e-9);
    expect(otherSecond?.ratio).toBeLessThan(1e-9);
    expect(third?.ratio).toBeGreaterThan(1e-4);
    expect(offBy(otherThird?.ratio ?? 0, third?.ratio ?? 1)).toBeLessThan(1e-9);
  });
});

const splitLoad: SplitterDescription = {
  id: 'splitter',
  topology: 'split-load',
  device: '12AU7',
  supplyV: 330,
  grid: { kind: 'tap', ohm: 1e3 },
  nextGridLeakOhm: null,
  otherGridLeakOhm: null,
  plateResistorOhm: 22e3,
  cathodeResistorOhm: 22e3,
};

const longTailed: SplitterDescription = {
  id: 'pair',
  topology: 'long-tailed',
  device: '12AX7',
  supplyV: 330,
  grid: { kind: 'voltage', gridV: 85 },
  nextGridLeakOhm: 470e3,
  otherGridLeakOhm: null,
  plateResistorOhm: 100e3,
  otherPlateResistorOhm: 100e3,
  tail: { kind: 'resistor', ohm: 56e3, returnV: 0 },
};

const follower: SplitterDescription = {
  id: 'follower',
  topology: 'cathode-follower',
  device: '12AU7',
  supplyV: 330,
  grid: { kind: 'voltage', gridV: 130 },
  nextGridLeakOhm: null,
  otherGridLeakOhm: null,
  cathodeResistorOhm: 22e3,
};

function sheetOf(description: SplitterDescription): SplitterSheet {
  const [sheet] = loadSheet([description], null, tubes).stages;
  if (sheet?.topology !== description.topology) throw new Error('no sheet');
  return sheet as SplitterSheet;
}

describe('the sheet of a splitter', () => {
  test('balances a split load whose cathode carries the bias resistor by the plate resistor that adds it', () => {
    const sheet = sheetOf(splitLoad);
    expect(sheet.balance?.ratio).toBeCloseTo(23 / 22, 12); // rounding
    expect(sheet.balance?.equalOhm).toBeCloseTo(23e3, 6);
    expect(sheet.outputs.map(({ name, inverting }) => [name, inverting])).toEqual([
      ['plate', true],
      ['cathode', false],
    ]);
    expect(sheetOf({ ...splitLoad, plateResistorOhm: 23e3 }).balance?.db).toBeCloseTo(0, 9);
  });

  test('loses balance with one more grid leak at one side', () => {
    const sheet = sheetOf({
      ...splitLoad,
      plateResistorOhm: 23e3,
      nextGridLeakOhm: 230e3,
      otherGridLeakOhm: 1e9,
    });
    // 23 kΩ beside 230 kΩ is 10/11 of it.
    expect(sheet.balance?.ratio).toBeCloseTo(1.1, 4); // 1 GΩ beside 23 kΩ takes 2e-5
    expect(sheet.balance?.equalOhm).toBeCloseTo(23e3 / (1 - 0.1), -1);
  });

  test('has a row of limits for each tube, and says what is not known', () => {
    const names = sheetOf(longTailed).limits.map(({ name }) => name);
    expect(names).toContain('plate dissipation, driven tube');
    expect(names).toContain('plate dissipation, other tube');
  });

  test('rests where Kirchhoff holds', () => {
    const { points, cathodeV } = sheetOf(longTailed);
    const [driven, other] = points;
    if (!driven || !other || cathodeV === null) throw new Error('no rest');
    expect(offBy(56e3 * (driven.plateA + other.plateA), cathodeV)).toBeLessThan(1e-9); // the solver's tolerance
    expect(offBy(cathodeV + driven.plateV + 100e3 * driven.plateA, 330)).toBeLessThan(1e-9);
    expect(offBy(85 - cathodeV, driven.gridV)).toBeLessThan(1e-9);
  });

  test('divides a current source between equal tubes', () => {
    const { points } = sheetOf({ ...longTailed, tail: { kind: 'current', totalA: 2e-3 } });
    expect(points.map(({ plateA }) => plateA)).toEqual([expect.closeTo(1e-3, 9), expect.closeTo(1e-3, 9)]);
  });

  test('gives small signals the gain that a small drive has in the large-signal solution', () => {
    const { outputs, drive } = sheetOf(follower);
    const [cathode] = outputs;
    if (!cathode || !drive) throw new Error('no output');
    const large = ((cathode.largestVrms ?? 0) * Math.SQRT2) / drive.driveV;
    expect(offBy(large, cathode.gain)).toBeLessThan(0.01); // a follower is that straight
    expect(drive.limitedBy).toBe('grid current');
  });

  test.each([splitLoad, longTailed, follower])(
    '$topology explains itself with figures of the sheet',
    (one) => {
      const { explanation, absent } = sheetOf(one);
      const text = explanation.join(' ');
      expect(text).toContain('the cathode stands at');
      expect(text).toContain('The swing ends');
      expect(text).not.toMatch(/NaN|null|undefined|\bsafe\b/);
      expect(absent).toEqual({});
    },
  );

  test('says which source impedance of a split load applies', () => {
    const equal = sheetOf({ ...splitLoad, plateResistorOhm: 23e3 }).explanation.join(' ');
    expect(equal).toContain('this is the figure that applies in use');
    expect(sheetOf(splitLoad).explanation.join(' ')).toContain('no one source impedance');
  });
});

describe('faults of a splitter have the path of their value', () => {
  test.each<[string, SplitterDescription, string, (string | number)[]]>([
    ['an unknown device', { ...splitLoad, device: '12AU8' }, 'load/unknown-device', ['device']],
    ['no supply', { ...splitLoad, supplyV: null }, 'load/missing-value', ['supply']],
    ['a resistor of nothing', { ...splitLoad, plateResistorOhm: 0 }, 'load/out-of-range', ['plateResistor']],
    [
      'a grid above the cathode',
      { ...follower, grid: { kind: 'voltage', gridV: 320 } },
      'load/positive-grid',
      ['bias'],
    ],
    [
      'a grid far below ground',
      { ...follower, grid: { kind: 'voltage', gridV: -200 } },
      'load/no-operating-point',
      ['bias'],
    ],
    [
      'a tail that wants more than the tubes have',
      { ...longTailed, tail: { kind: 'current', totalA: 0.5 } },
      'load/no-operating-point',
      ['tail'],
    ],
    [
      'a bias resistor above a current source',
      { ...longTailed, grid: { kind: 'tap', ohm: 1e3 }, tail: { kind: 'current', totalA: 2e-3 } },
      'load/bias',
      ['bias'],
    ],
    [
      'a tail of nothing',
      { ...longTailed, tail: { kind: 'resistor', ohm: 0, returnV: 0 } },
      'load/out-of-range',
      ['tail', 'resistor'],
    ],
  ])('%s', (_, stage, rule, path) => {
    const { problems, stages } = loadSheet([stage], null, tubes);
    expect(problems).toEqual([expect.objectContaining({ rule, path: ['stages', 0, ...path] })]);
    expect(problems[0]?.message).toMatch(/^.+\.$/);
    expect(stages[0]?.absent).toHaveProperty('outputs');
  });
});
