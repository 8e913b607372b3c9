import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Bias,
  deviceOf,
  type Rest,
  type RestQuery,
  smallSignal,
  solveRest,
  voltageGain,
} from '../../src/load/index.ts';
import { check, offBy, spaceChargeTriode, tube } from './support.ts';

function restOf(query: RestQuery): Rest {
  const found = solveRest(query);
  if ('fault' in found) throw new Error(found.fault.message);
  return found.rest;
}

function faultOf(query: RestQuery) {
  const found = solveRest(query);
  if ('rest' in found) throw new Error('a point of rest was found');
  return found.fault;
}

const steck = check<
  { device: string; supplyV: number; plateResistorOhm: number; cathodeOhm: number },
  { plateA: number; plateV: number; gridV: number; gmS: number }
>('steck-operating-point');
const steckQuery: RestQuery = {
  device: deviceOf(tube('12AX7'), 'triode'),
  feed: { kind: 'supply', supplyV: steck.given.supplyV, ohm: steck.given.plateResistorOhm },
  screenV: 0,
  bias: { kind: 'cathode-resistor', ohm: steck.given.cathodeOhm, bypassed: true },
};

describe("Steck's 12AX7 stage, p. 176 (330 V, 100 kΩ, 1.5 kΩ)", () => {
  const rest = restOf(steckQuery);

  test('1.0742 mA, 220.97 V, −1.6113 V and 1.8772 mS', () => {
    // Five digits stated in the check values.
    expect(offBy(rest.plateA, steck.expected.plateA)).toBeLessThan(5e-5);
    expect(offBy(rest.plateV, steck.expected.plateV)).toBeLessThan(5e-5);
    expect(offBy(rest.gridV, steck.expected.gridV)).toBeLessThan(5e-5);
    expect(offBy(smallSignal(steckQuery.device, rest).gmS, steck.expected.gmS)).toBeLessThan(5e-5);
  });

  test('its local rp, mu and gains differ from those of the nominal mu', () => {
    const { expected } = check<unknown, { rpOhm: number; mu: number; bypassed: number; unbypassed: number }>(
      'steck-gain-local',
    );
    const { rpOhm, mu } = smallSignal(steckQuery.device, rest);
    const gain = voltageGain({ mu: mu ?? 0, rpOhm: rpOhm ?? 0, loadOhm: 100e3, cathodeOhm: 1500 });
    // Three digits stated.
    expect(offBy(rpOhm ?? 0, expected.rpOhm)).toBeLessThan(1e-3);
    expect(offBy(mu ?? 0, expected.mu)).toBeLessThan(1e-4);
    expect(offBy(gain.bypassed, expected.bypassed)).toBeLessThan(1e-3);
    expect(offBy(gain.unbypassed ?? 0, expected.unbypassed)).toBeLessThan(1e-3);
  });
});

describe('against closed forms', () => {
  // With y = √(Va + mu·Vg) a Child-Langmuir triode draws k·y³; choosing y makes every voltage explicit.
  const perveance = 15e-6;
  const mu = 25;
  const device = spaceChargeTriode(perveance, mu);

  test.each([2, 5, 8])('a 3/2-power triode behind a plate resistor, y = %d', (y) => {
    const plateA = perveance * y ** 3;
    const plateV = y * y + mu * 2;
    const feed = { kind: 'supply', supplyV: plateV + 47e3 * plateA, ohm: 47e3 } as const;
    const rest = restOf({ device, feed, screenV: 0, bias: { kind: 'grid', gridV: -2 } });
    expect(offBy(rest.plateV, plateV)).toBeLessThan(1e-10); // tolerance of the solver
    expect(offBy(rest.plateA, plateA)).toBeLessThan(1e-9);
  });

  test.each([2, 5, 8])('a 3/2-power triode with plate and cathode resistor, y = %d', (y) => {
    const plateA = perveance * y ** 3;
    const ohm = 820;
    const plateV = y * y + mu * ohm * plateA;
    const feed = { kind: 'supply', supplyV: plateV + (47e3 + ohm) * plateA, ohm: 47e3 } as const;
    const rest = restOf({
      device,
      feed,
      screenV: 0,
      bias: { kind: 'cathode-resistor', ohm, bypassed: false },
    });
    expect(offBy(rest.gridV, -ohm * plateA)).toBeLessThan(1e-9);
    expect(offBy(rest.plateV, plateV)).toBeLessThan(1e-9);
  });

  test('a stated current finds the grid voltage: (Ia/k)^(2/3) = Va + mu·Vg', () => {
    const feed = { kind: 'plate', plateV: 200 } as const;
    const rest = restOf({ device, feed, screenV: 0, bias: { kind: 'current', plateA: 5e-3 } });
    expect(offBy(rest.gridV, ((5e-3 / perveance) ** (2 / 3) - 200) / mu)).toBeLessThan(1e-10);
  });

  test('2A3 with 45 V at 60 mA needs 750 Ω, and 750 Ω finds 45 V at 60 mA (valve museum data block)', () => {
    const { given, expected } = check<{ gridV: number; plateA: number }, { ohm: number }>(
      'cathode-resistor-2a3',
    );
    expect(-given.gridV / given.plateA).toBeCloseTo(expected.ohm, 9);
    const scale = given.plateA / (250 + 4.2 * given.gridV) ** 1.5;
    const rest = restOf({
      device: spaceChargeTriode(scale, 4.2),
      feed: { kind: 'plate', plateV: 250 },
      screenV: 0,
      bias: { kind: 'cathode-resistor', ohm: expected.ohm, bypassed: true },
    });
    expect(offBy(rest.gridV, given.gridV)).toBeLessThan(1e-9);
    expect(offBy(rest.plateA, given.plateA)).toBeLessThan(1e-9);
  });

  test('248 Ω common to two 6L6 find 21.8 V at 88 mA (RCA sheet as quoted, screen current ignored)', () => {
    const { given, expected } = check<{ gridV: number; bothA: number }, { ohm: number }>(
      'cathode-resistor-6l6-pair',
    );
    expect(offBy(-given.gridV / given.bothA, expected.ohm)).toBeLessThan(2e-3); // three digits printed
    const sideA = given.bothA / 2;
    const scale = sideA / (270 + 8.7 * given.gridV) ** 1.5;
    const rest = restOf({
      device: spaceChargeTriode(scale, 8.7),
      feed: { kind: 'plate', plateV: 270 },
      screenV: 0,
      // To one side the common resistor is twice as large.
      bias: { kind: 'cathode-resistor', ohm: 2 * expected.ohm, bypassed: true },
    });
    expect(offBy(rest.gridV, given.gridV)).toBeLessThan(2e-3);
    expect(offBy(2 * rest.plateA, given.bothA)).toBeLessThan(2e-3);
  });
});

describe('a pentode', () => {
  test('puts plate and screen current through its cathode resistor', () => {
    const device = deviceOf(tube('EL34'), 'pentode');
    const feed = { kind: 'supply', supplyV: 280, ohm: 80 } as const;
    const rest = restOf({
      device,
      feed,
      screenV: 265,
      bias: { kind: 'cathode-resistor', ohm: 118, bypassed: true },
    });
    expect(rest.screenA).toBeGreaterThan(0.005);
    expect(118 * (rest.plateA + rest.screenA)).toBeCloseTo(-rest.gridV, 9); // solver tolerance
    expect(rest.plateV + 80 * rest.plateA - rest.gridV).toBeCloseTo(280, 8);
  });
});

describe('a stage without an operating point', () => {
  const device = deviceOf(tube('300B'), 'triode');
  const plate = { kind: 'plate', plateV: 300 } as const;
  const query = (bias: Bias): RestQuery => ({ device, feed: plate, screenV: 0, bias });

  test('cut off by its bias', () => {
    const fault = faultOf(query({ kind: 'grid', gridV: -200 }));
    expect(fault).toMatchObject({ rule: 'load/no-operating-point', path: ['bias'] });
    expect(fault.message).toContain('cut off');
    expect(fault.hint).not.toBe('');
  });

  test('more current than flows at 0 V on the grid', () => {
    expect(faultOf(query({ kind: 'current', plateA: 5 })).message).toMatch(
      /cannot be reached.*0 V at the grid/,
    );
  });

  test('a plate resistor that uses up the supply', () => {
    const feed = { kind: 'supply', supplyV: 300, ohm: 100e3 } as const;
    const fault = faultOf({ device, feed, screenV: 0, bias: { kind: 'current', plateA: 4e-3 } });
    expect(fault.message).toContain('drops the whole supply voltage');
  });
});

test("Kirchhoff's laws hold at every point of rest, whatever the tube, supply and resistors", () => {
  const types = fc.constantFrom('12AX7', '12AU7', '300B', '6C33C');
  const circuit = fc.record({
    type: types,
    supplyV: fc.double({ min: 20, max: 800, noNaN: true }),
    plateOhm: fc.double({ min: 100, max: 500e3, noNaN: true }),
    cathodeOhm: fc.double({ min: 10, max: 20e3, noNaN: true }),
  });
  fc.assert(
    fc.property(circuit, ({ type, supplyV, plateOhm, cathodeOhm }) => {
      const found = solveRest({
        device: deviceOf(tube(type), 'triode'),
        feed: { kind: 'supply', supplyV, ohm: plateOhm },
        screenV: 0,
        bias: { kind: 'cathode-resistor', ohm: cathodeOhm, bypassed: true },
      });
      if ('fault' in found) return expect(found.fault.message).toContain('cut off');
      const { plateV, plateA, gridV } = found.rest;
      // Nested solutions of relative 1e-12 leave a few parts in 10^9 of the supply.
      expect(Math.abs(plateV + plateA * plateOhm - gridV - supplyV)).toBeLessThan(1e-8 * supplyV);
      expect(Math.abs(gridV + cathodeOhm * plateA)).toBeLessThan(1e-8 * supplyV);
    }),
    { numRuns: 200 },
  );
});
