import { expect, test } from 'vitest';
import { loadSheet } from '../../src/load/index.ts';
import { tubeSheet, tubes } from './support.ts';

const stage = {
  id: 'output',
  device: '2A3',
  connection: 'triode',
  plateV: 250,
  screenV: null,
  bias: { kind: 'grid', gridV: -45 },
  plateResistorOhm: null,
  nextGridLeakOhm: null,
  loadOhm: 2500,
  driveV: null,
  supplyV: null,
} as const;
const supply = {
  plateV: 300,
  currentA: 0.06,
  sourceResistanceOhm: 120,
  mainsHz: 50,
  offLoadV: null,
  capacitors: [],
};

test('the plate of a transformer-coupled stage is said to reach twice its supply with the mains 10 % high', () => {
  const of = (change: object) =>
    loadSheet([{ ...stage, topology: 'single-ended', ...change }], supply, tubes).peakPlateV;
  expect(of({})).toBeCloseTo(660, 9); // 2 · 1.1 · 300, exact but for rounding in doubles
  expect(of({ supplyV: 400 }), 'its own supply outranks the common one').toBeCloseTo(880, 9);
});

test('the peak lies above what the model gives into the load, and is absent for a plate resistor', () => {
  const sheet = loadSheet([{ ...stage, topology: 'single-ended' }], supply, tubes);
  expect(sheet.peakPlateV).toBeGreaterThan(
    tubeSheet(sheet.stages[0]).atLoad?.peakPlateV ?? Number.POSITIVE_INFINITY,
  );
  const coupled = {
    ...stage,
    topology: 'resistance-coupled',
    plateResistorOhm: 1000,
    loadOhm: null,
  } as const;
  expect(loadSheet([coupled], supply, tubes).peakPlateV).toBeNull();
});
