import { expect, test } from 'vitest';
import { complex, magnitude } from '../../src/demo/complex.ts';
import { heronAt } from '../../src/demo/heron.ts';
import { slate } from '../../src/demo/slate.ts';
import { rmsOf, type Tone } from '../../src/demo/tone.ts';
import { spaceCurrent, triodeAtRest } from '../../src/demo/tubes.ts';
import { wren, wrenAt, wrenImpedance, wrenTransfer } from '../../src/demo/wren.ts';

const ratio = (tone: Tone, order: number) => rmsOf(tone, order) / rmsOf(tone, 1);
const volts = (watts: number) => Math.sqrt(8 * watts);

test('a triode at rest satisfies both its curve and the circuit around it', () => {
  const tube = { mu: 60, exponent: 1.4, perveance: 3e-3, softV: 1 };
  const rest = triodeAtRest(tube, 300, 47e3, 680);
  // Sixty halvings of one ampere leave less than 1e-15 A, times 47 kΩ less than 1e-9 V.
  expect(Math.abs(rest.plateV + rest.plateA * 47_680 - 300)).toBeLessThan(1e-9);
  expect(Math.abs(spaceCurrent(tube, rest.gridV, rest.plateV) - rest.plateA)).toBeLessThan(1e-12);
});

test('Heron reaches the level that it is asked for', () => {
  // The drive is corrected eight times; each correction leaves less than a tenth of the error.
  expect(Math.abs(rmsOf(heronAt('v1', 1000, 2.8).speaker, 1) / 2.8 - 1)).toBeLessThan(1e-6);
});

test("Heron's second harmonic at the grid of version 1 exceeds that at the load, and has its sign", () => {
  const { grid, speaker } = heronAt('v1', 1000, volts(1));
  const sign = (tone: Tone) => {
    const [, first = complex(0), second = complex(0)] = tone.lines;
    return Math.cos(Math.atan2(second.im, second.re) - 2 * Math.atan2(first.im, first.re));
  };
  expect(ratio(grid, 2)).toBeGreaterThan(1.5 * ratio(speaker, 2));
  // One inversion turns the sign of a second harmonic re its fundamental; both cosines are near ±1.
  expect(sign(grid)).toBeLessThan(-0.9);
  expect(sign(speaker)).toBeGreaterThan(0.9);
});

test("version 2's second harmonic is at least eight times lower at 1 kHz, at 1 W and at 50 mW, but higher at 20 Hz", () => {
  const second = (version: 'v1' | 'v2', hz: number, watts: number) =>
    ratio(heronAt(version, hz, volts(watts)).speaker, 2);
  expect(second('v1', 1000, 1) / second('v2', 1000, 1)).toBeGreaterThan(8);
  expect(second('v1', 1000, 0.05) / second('v2', 1000, 0.05)).toBeGreaterThan(8);
  expect(second('v2', 20, 1)).toBeGreaterThan(second('v1', 20, 1));
});

test("Wren's harmonics vanish in proportion to level, the third as its square", () => {
  const at = (gridRms: number, order: number) => ratio(wren('bypassed', 1000, gridRms).speaker, order);
  // 2 %: what the next powers of the drive add at these levels.
  expect(Math.abs(at(0.4, 2) / at(0.2, 2) / 2 - 1)).toBeLessThan(0.02);
  expect(Math.abs(at(0.4, 3) / at(0.2, 3) / 4 - 1)).toBeLessThan(0.02);
});

test('an unbypassed cathode costs drive, lowers distortion and raises the impedance of Wren', () => {
  const closed = wrenAt('bypassed', 1000, volts(1));
  const open = wrenAt('unbypassed', 1000, volts(1));
  expect(rmsOf(open.grid, 1)).toBeGreaterThan(1.5 * rmsOf(closed.grid, 1));
  expect(ratio(open.speaker, 2)).toBeLessThan(ratio(closed.speaker, 2) / 1.5);
  expect(magnitude(wrenImpedance('unbypassed', 1000))).toBeGreaterThan(
    1.5 * magnitude(wrenImpedance('bypassed', 1000)),
  );
});

test("Wren's impedance follows from its voltage at two loads", () => {
  const at = (ohm: number) => magnitude(wrenTransfer('bypassed', 2300, complex(ohm)));
  const open = at(1e9);
  const impedance = 8 * (open / at(8) - 1);
  // Open circuit against R: Z = R(V0/V − 1) for a resistive source; 2 % for its small angle and the
  // transformer's loss at the load.
  expect(Math.abs(impedance / magnitude(wrenImpedance('bypassed', 2300)) - 1)).toBeLessThan(0.02);
});

test('the odd harmonics of Slate at a quarter of a watt fall with the idle current, the higher ones faster', () => {
  const odd = (idleA: number, order: number) => ratio(slate(idleA, 1000, volts(0.25)), order);
  const fall = (order: number) => odd(0.04, order) / odd(0.15, order);
  expect(odd(0.04, 3)).toBeGreaterThan(odd(0.08, 3));
  expect(odd(0.08, 3)).toBeGreaterThan(odd(0.15, 3));
  expect(fall(5)).toBeGreaterThan(fall(3));
});
