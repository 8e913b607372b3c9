import { expect, test } from 'vitest';
import { methods } from '../../src/figures/index.ts';
import { supplyBlocks } from '../../src/figures/stages.ts';
import { loadSheet, type SupplyDescription } from '../../src/load/index.ts';
import { singleEnded, tubes } from '../load/support.ts';

const supply: SupplyDescription = {
  plateV: 330,
  currentA: 0.06,
  sourceResistanceOhm: 120,
  mainsHz: 50,
  offLoadV: null,
  capacitors: [
    { capacitanceF: 100e-6, ratedV: 450, workingV: 330, bleederOhm: 220e3, bleederRatedW: 2 },
    {
      capacitanceF: 47e-6,
      ratedV: 450,
      workingV: null,
      bleederOhm: null,
      section: 'LC',
      seriesH: 10,
      seriesOhm: 100,
    },
  ],
  heaters: [
    { name: 'output', voltageV: 5, ratedA: 1.5, feeds: [{ device: '300B', count: 1, currentA: null }] },
    { name: 'other', voltageV: 6.3, ratedA: null, feeds: [{ device: '6C33C', count: 12, currentA: null }] },
  ],
};

function printed(source: SupplyDescription, ...stages: (typeof singleEnded)[]): Record<string, string[]> {
  const { supply: sheet } = loadSheet(stages, source, tubes);
  const blocks = sheet ? supplyBlocks(sheet) : [];
  return Object.fromEntries(
    blocks.map(({ title, facts }) => [
      title,
      facts.map(({ name, value }) => `${name}: ${value}`.replaceAll('\u00a0', ' ')),
    ]),
  );
}

test('a supply prints its ripple, currents, bleeders, hum and heaters', () => {
  const blocks = printed(supply, singleEnded);
  expect(blocks['Ripple']).toEqual([
    'At the reservoir: 1.73 V rms',
    expect.stringMatching(/^Behind section 1, LC: 9\.\d\d mV rms, 45\.\d dB less$/),
    'Drop in section 1: 6.00 V at 60.0 mA',
    'Resonance of section 1: 7.34 Hz',
    'Peak to peak: 6.00 V, the mean 3.00 V below the crests',
    'Rectifier: full-wave, 100 Hz',
  ]);
  expect(blocks['Current drawn']).toEqual(
    expect.arrayContaining([
      expect.stringMatching(/^Output: 58\.4 mA, \d\d\.\d mA at full drive$/),
      'Bleeders: 1.50 mA',
      expect.stringMatching(/^Together, at rest: 59\.9 mA, −0\.2\d? ?% from the stated$/),
      'Stated: 60.0 mA',
    ]),
  );
  // 1.1 · (330 V + 60 mA · 120 Ω) = 370.9 V: squared over 220 kΩ.
  expect(blocks['Bleeders']?.at(-1)).toBe('220 kΩ fitted: 625 mW of 2.00 W, 31 %');
  expect(blocks['Hum from the supply, re 1 W']?.[0]).toMatch(
    /^Output: −7\d\.\d dB, 7\.\d\d mV across the load$/,
  );
  expect(blocks['Heaters, output']).toEqual([
    '1 × 300B: 1.20 A',
    'Together at 5.00 V: 1.20 A of 1.50 A, 80 %',
  ]);
  expect(blocks['Heaters, other']).toEqual(['12 × 6C33C: not known', 'Together at 6.30 V: not known']);
});

test('what is not known has no block', () => {
  const bare: SupplyDescription = { ...supply, currentA: null, mainsHz: null, capacitors: [], heaters: [] };
  expect(printed(bare)).toEqual({});
});

test('each block leads to a section of the methods page', () => {
  const { supply: sheet } = loadSheet([singleEnded], supply, tubes);
  const ids = methods.map(({ id }) => id);
  const blocks = sheet ? supplyBlocks(sheet) : [];
  expect(blocks).toHaveLength(6);
  for (const { method } of blocks) expect(ids).toContain(method);
});
