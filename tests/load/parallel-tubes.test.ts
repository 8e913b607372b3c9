import { expect, test } from 'vitest';
import { explanationsOf, faultsOf, offBy, pentode, sheetOf, singleEnded } from './support-devices.ts';

test('two tubes into half the load are twice one tube into the whole of it', () => {
  const one = sheetOf(singleEnded);
  const two = sheetOf({ ...singleEnded, count: 2, loadOhm: 1700 });
  // The same equations with every current doubled; rounding only.
  expect(offBy(two.operatingPoint?.plateA ?? 0, 2 * (one.operatingPoint?.plateA ?? 0))).toBeLessThan(1e-12);
  expect(offBy(two.operatingPoint?.rpOhm ?? 0, (one.operatingPoint?.rpOhm ?? 0) / 2)).toBeLessThan(1e-9);
  expect(offBy(two.operatingPoint?.mu ?? 0, one.operatingPoint?.mu ?? 0)).toBeLessThan(1e-9);
  expect(offBy(two.atLoad?.powerW ?? 0, 2 * (one.atLoad?.powerW ?? 0))).toBeLessThan(1e-9);
  expect(offBy(two.atLoad?.thdRatio ?? 0, one.atLoad?.thdRatio ?? 0)).toBeLessThan(1e-9);
});

test('ratings are judged for each tube', () => {
  const alone = (count: number) =>
    sheetOf({ ...pentode, count, loadOhm: pentode.loadOhm && pentode.loadOhm / count }).limits;
  const [one, three] = [alone(1), alone(3)];
  expect(three.map(({ name }) => name)).toEqual(one.map(({ name }) => name));
  for (const [index, row] of one.entries()) {
    expect(offBy(three[index]?.value ?? 0, row.value), row.name).toBeLessThan(1e-12); // rounding
  }
});

test('a cathode resistor carries all tubes, and a bias by current is that of each', () => {
  const bias = (ohm: number) => ({ kind: 'cathode-resistor', ohm, bypassed: true }) as const;
  const one = sheetOf({ ...singleEnded, bias: bias(1000) }).operatingPoint;
  const two = sheetOf({ ...singleEnded, count: 2, bias: bias(500) }).operatingPoint;
  expect(offBy(two?.gridV ?? 0, one?.gridV ?? 0)).toBeLessThan(1e-9); // root of the same equation
  const held = sheetOf({ ...singleEnded, count: 2, bias: { kind: 'current', plateA: 0.06 } }).operatingPoint;
  expect(offBy(held?.plateA ?? 0, 0.12)).toBeLessThan(1e-9);
});

test('the sheet says how many there are', () => {
  expect(explanationsOf(sheetOf({ ...pentode, device: '6550', count: 2 }))).toMatch(
    /^At rest 2 × 6550 in parallel together draw .* and each dissipates/,
  );
});

test.each([0, 1.5, -2, 17, Number.NaN])('%s tubes are a fault', (count) => {
  expect(faultsOf({ ...singleEnded, count })).toContainEqual(['load/out-of-range', 'stages.0.count']);
});

test('the grid leak of an EL34 may be 500 kΩ with fixed bias and 700 kΩ on a cathode resistor', () => {
  const leak = (bias: typeof pentode.bias) =>
    sheetOf({ ...pentode, gridLeakOhm: 600e3, bias }).limits.find(({ name }) => name === 'grid leak');
  // Electro-Harmonix EL34 data sheet, order of its values inferred.
  expect(leak({ kind: 'grid', gridV: -13.5 })).toMatchObject({
    limit: 500e3,
    over: true,
    status: 'secondary',
  });
  expect(leak({ kind: 'cathode-resistor', ohm: 120, bypassed: true })).toMatchObject({
    limit: 700e3,
    over: false,
  });
  expect(sheetOf(pentode).limits.some(({ name }) => name === 'grid leak')).toBe(false);
});
