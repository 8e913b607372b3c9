import { expect, test } from 'vitest';
import { deviceOf, driveFor, largeSignal, loadSheet, reflectedImpedance } from '../../src/load/index.ts';
import { real } from '../../src/load/output/complex.ts';
import { complexPeriod } from '../../src/load/output/complex-period.ts';
import {
  coreSheet,
  gappedCore,
  highCorners,
  lowCorners,
  turnsInUse,
  windingEfficiency,
} from '../../src/load/output/output-transformer.ts';
import { tubePeriod } from '../../src/load/stage/tube-period.ts';
import type { OutputTransformer, StageDescription } from '../../src/load/types.ts';
import { linearTriode, offBy, singleEnded, stageAt, tube, tubes } from './support.ts';

const transformer: OutputTransformer = {
  name: 'A transformer',
  turnsRatio: 25,
  nominalOhm: 8,
  primaryOhm: 250,
  secondaryOhm: 0.4,
  primaryH: 20,
  leakageH: 0.02,
  ratedPower: { watt: 10, frequencyHz: 30 },
  ratedDirectA: 0.06,
};

test('250 Ω and 0.4 Ω at 25:1 pass 90.91 % of the power into 8 Ω, −0.414 dB (derived)', () => {
  const passed = windingEfficiency({ turnsRatio: 25, speakerOhm: 8, primaryOhm: 250, secondaryOhm: 0.4 });
  expect(passed).toBeCloseTo(0.9091, 4); // as many digits as are stated
  expect(10 * Math.log10(passed)).toBeCloseTo(-0.414, 3);
});

test('0.5, 1, 2 and 3.01 dB at the low end are at 2.863, 1.965, 1.308 and 1 times the corner (RDH4 ch. 5, from memory)', () => {
  const corners = lowCorners(2 * Math.PI, 1).map(({ frequencyHz }) => frequencyHz);
  for (const [k, factor] of [2.863, 1.965, 1.308, 1].entries()) expect(corners[k]).toBeCloseTo(factor, 3);
});

test('100 H across 2.5 kΩ and 10 kΩ lose 3 dB at 3.18 Hz (Williamson 1947, from memory)', () => {
  expect(lowCorners(2000, 100).at(-1)?.frequencyHz).toBeCloseTo(3.18, 2);
});

test('95 H and 142 H across 2 kΩ lose 3 dB at 3.35 Hz and 2.24 Hz (NPL report E.475.100)', () => {
  expect(lowCorners(2000, 95).at(-1)?.frequencyHz).toBeCloseTo(3.35, 2);
  expect(lowCorners(2000, 142).at(-1)?.frequencyHz).toBeCloseTo(2.24, 2);
});

test('30 mH and 33 mH with 12.5 kΩ lose 3 dB at 66.3 kHz and 60.3 kHz (Williamson, from memory)', () => {
  expect((highCorners(12.5e3, 0.03).at(-1)?.frequencyHz ?? 0) / 1e3).toBeCloseTo(66.3, 1);
  expect((highCorners(12.5e3, 0.033).at(-1)?.frequencyHz ?? 0) / 1e3).toBeCloseTo(60.3, 1);
});

test('3000 turns, 60 mA, 0.2 mm and 10 cm² give 1.131 T and 56.5 H (derived)', () => {
  const { directTesla, inductanceH } = gappedCore({ turns: 3000, directA: 0.06, gapM: 0.2e-3, areaM2: 1e-3 });
  expect(directTesla).toBeCloseTo(1.131, 3);
  expect(inductanceH).toBeCloseTo(56.5, 1);
});

test('equal primary voltage on 3.5 kΩ and 5 kΩ differs by 1.55 dB (common practice, no source; 10·lg of the ratio)', () => {
  const power = (ohm: number) => 1 / reflectedImpedance(Math.sqrt(ohm / 8), 8);
  expect(10 * Math.log10(power(3500) / power(5000))).toBeCloseTo(1.55, 2);
});

test('half of the turns have a quarter of inductance and leakage', () => {
  expect(turnsInUse(transformer, 0.5)).toEqual({
    turnsRatio: 12.5,
    primaryOhm: 125,
    primaryH: 5,
    leakageH: 0.005,
  });
});

test('at the rated direct current the core carries the rated power at the rated frequency, and less with more', () => {
  const rating = {
    turnsRatio: 25,
    nominalOhm: 8,
    primaryH: 20,
    ratedPower: { watt: 10, frequencyHz: 30 },
    ratedDirectA: 0.06,
  };
  const use = { primaryShare: 1, directA: 0.06, overReflected: 1, speakerOhm: 8, speakerW: 10 };
  expect(coreSheet(rating, use)?.powerAtRatedHzW).toBeCloseTo(10, 9); // rounding
  expect(coreSheet(rating, use)?.fullPowerHz).toBeCloseTo(30, 9);
  expect(coreSheet(rating, { ...use, directA: 0.07 })?.powerAtRatedHzW).toBeLessThan(10);
  expect(coreSheet(rating, { ...use, directA: 1 })).toBeNull();
});

test('a resistance at every order gives what a resistive load gives', () => {
  const stage = stageAt(deviceOf(tube('300B'), 'triode'), 300, -61, {
    feedOhm: 150,
    cathode: { ohm: 1045, bypassed: true },
  });
  const drive = driveFor(stage, 2400, null);
  const expected = drive && largeSignal(stage, 2400, drive);
  const period = drive && complexPeriod(tubePeriod(stage, drive.driveV), () => real(2400));
  if (!expected || !period) throw new Error('nothing swings');
  const fundamental = period.currents[1]?.re ?? 0;
  // Both settle their averages to 1e-8 or better.
  expect(offBy((fundamental ** 2 * 2400) / 2, expected.powerW)).toBeLessThan(1e-6);
  expect(
    offBy(Math.abs((period.currents[2]?.re ?? 0) / fundamental), expected.harmonics[0]?.ratio ?? 0),
  ).toBeLessThan(1e-6);
});

test('straight characteristics on a coil and a resistor in series follow the phasor mu·E/(rp + R + jωL)', () => {
  const stage = stageAt(linearTriode(4, 800), 250, -40);
  const period = complexPeriod(tubePeriod(stage, 10), (order) => ({ re: 2000, im: order * 1500 }));
  const size = 40 / Math.hypot(2800, 1500);
  expect(Math.hypot(period?.currents[1]?.re ?? 0, period?.currents[1]?.im ?? 0)).toBeCloseTo(size, 9); // solved to 1e-9
  expect(period?.currents[1]?.im).toBeLessThan(0);
});

const coupled: StageDescription = {
  ...singleEnded,
  loadOhm: null,
  output: { transformer, primaryShare: 1, speakerOhm: 8, sweep: null },
};

test('a sheet with a transformer has the load through its windings and the direct current against its rating', () => {
  const [sheet] = loadSheet([coupled], null, tubes).stages;
  if (!sheet || !('output' in sheet) || !sheet.output) throw new Error('no output');
  expect(sheet.output.loadOhm).toBeCloseTo(5500, 9); // 250 Ω, and 8.4 Ω times 625
  expect(sheet.limits.at(-1)?.name).toBe('direct current in the winding');
  expect(sheet.output.realLoad?.unsolvedHz).toEqual([]);
});

test('a load beside a transformer, and values that no transformer has, are faults and not exceptions', () => {
  const rules = (stage: StageDescription) => loadSheet([stage], null, tubes).problems.map(({ rule }) => rule);
  expect(rules({ ...coupled, loadOhm: 2500 })).toContain('load/contradiction');
  for (const turnsRatio of [Number.NaN, 0, Number.POSITIVE_INFINITY]) {
    const output = {
      transformer: { ...transformer, turnsRatio },
      primaryShare: 1,
      speakerOhm: 8,
      sweep: null,
    };
    expect(rules({ ...coupled, output })).toContain('load/out-of-range');
  }
});
