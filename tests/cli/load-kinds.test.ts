import { join } from 'node:path';
import { expect, test } from 'vitest';
import { writeFiles } from '../support/journal.ts';
import { ran } from '../support/output.ts';
import { schemaFaults } from '../support/schemas.ts';

const transformer = (keys: string) => `---\ntitle: Output transformer\nkind: transformer\n${keys}---\n`;
const windings = `primaryResistance: 120 Ω
secondaryResistance: 0.3 Ω
primaryInductance: { value: 60 H, level: 10 V, frequency: 50 Hz, secondary: open }
leakageInductance: { value: 10 mH, frequency: 1 kHz, secondary: shorted }
ratedPower: { value: 40 W, frequency: 30 Hz }
`;
const rows = [-120, -90, -60, -30, 0].flatMap((grid) =>
  [0, 150, 300, 450, 600, 750].map((plate) => `${plate},${grid},${Math.max(0, plate + 4 * grid) / 5}`),
);
const stages = `stages:
  - { id: input, topology: resistance-coupled, device: EL34, connection: pentode, bias: { cathodeResistor: 1 kΩ }, plateResistor: 47 kΩ, screenResistor: 220 kΩ, nextGridLeak: 470 kΩ, couplingCapacitor: 100 nF, bypassCapacitor: 100 µF }
  - { id: split, topology: split-load, device: 12AU7, bias: { resistor: 1 kΩ }, plateResistor: 22 kΩ, cathodeResistor: 22 kΩ }
  - { id: tailed, topology: long-tailed, device: 12AX7, bias: { gridVoltage: 85 V }, plateResistor: 100 kΩ, tail: { resistor: 56 kΩ } }
  - { id: follower, topology: cathode-follower, device: 12AU7, bias: { gridVoltage: 130 V }, cathodeResistor: 22 kΩ }
  - { id: single, topology: single-ended, device: 300B, connection: triode, plate: 300 V, bias: { grid: -61 V }, transformer: parts/single, speaker: 8 Ω }
  - { id: traced-pair, topology: push-pull, device: 300B, connection: triode, plate: 300 V, bias: { grid: -61 V }, load: 5 kΩ, curves: family.csv }
  - { id: pair, topology: push-pull, device: EL34, connection: pentode, plate: 375 V, screen: 365 V, bias: { grid: -36 V }, transformer: parts/pair, speaker: 8 Ω, mismatch: 5 % }
  - { id: headphones, topology: follower, rail: 24 V, outputCapacitor: 470 µF, load: 32 Ω, sinkResistor: 68 Ω, lossVoltage: 1 V }
  - { id: transistors, topology: follower-pair, rails: 18 V, load: 8 Ω, emitterResistor: 0.1 Ω, biasCurrent: 40 mA, lossVoltage: 2 V }
`;
const around = `supply:
  plate: 400 V
  current: 160 mA
  sourceResistance: 100 Ω
  reservoir: [ { capacitance: 47 µF, ratedVoltage: 450 V, bleeder: 220 kΩ, bleederPower: 2 W } ]
  filter: [ { kind: LC, inductance: 10 H, resistance: 100 Ω, capacitance: 47 µF, feeds: [ pair ] } ]
  heaters: { windings: [ { name: all, voltage: 6.3 V, feeds: [ { device: 12AX7 } ] } ] }
chain: { source: { level: 2 V, impedance: 100 Ω }, feedback: 6 dB, speaker: 8 Ω }
`;
const files = {
  'journal.yaml': 'title: A journal\nauthor: Nobody\n',
  'parts/single.md': transformer(`primary: 3.5 kΩ\nsecondary: 8 Ω\nratedDirectCurrent: 80 mA\n${windings}`),
  'parts/pair.md': transformer(`primary: 3.4 kΩ\nsecondary: 8 Ω\n${windings}`),
  'all.yaml': stages + around,
  'family.csv': `plate voltage (V),grid voltage (V),plate current (mA)\n${rows.join('\n')}\n`,
};

type Json = Record<string, unknown>;
const documentOf = async () => {
  const { code, result } = await ran('load', join(writeFiles(files), 'all.yaml'), '--json');
  return { code, document: JSON.parse(result) as Json & { stages: Json[] } };
};

test('load --json of every kind of stage, with transformer, supply and chain, fits its schema', async () => {
  const { code, document } = await documentOf();
  expect(code).toBe(0);
  expect(document.stages.map(({ topology }) => topology)).toEqual([
    'resistance-coupled',
    'split-load',
    'long-tailed',
    'cathode-follower',
    'single-ended',
    'push-pull',
    'push-pull',
    'follower',
    'follower-pair',
  ]);
  expect(document).toMatchObject({ supply: { storedEnergyJ: expect.any(Number) }, chain: { feedbackDb: 6 } });
  expect(schemaFaults('load', document)).toEqual([]);
});

test('the schema notices another name of each part that a pair with a transformer and traced curves has', async () => {
  const { document } = await documentOf();
  const at = (id: string) => document.stages.findIndex((stage) => stage['id'] === id);
  expect(document.stages[at('traced-pair')]).toMatchObject({ curvesFrom: 'family.csv', modelSource: null });
  expect(document.stages[at('pair')]).toMatchObject({
    output: { efficiency: expect.any(Number), realLoad: { rows: expect.any(Array) } },
  });
  for (const [id, key] of [
    ['pair', 'output'],
    ['traced-pair', 'curvesFrom'],
  ] as const) {
    const copy = structuredClone(document);
    const stage = copy.stages[at(id)] ?? {};
    stage[`${key}Renamed`] = stage[key];
    delete stage[key];
    expect(schemaFaults('load', copy), key).not.toEqual([]);
  }
});

test('load prints what the transformer makes of a pair', async () => {
  const { result } = await ran('load', join(writeFiles(files), 'all.yaml'));
  const [, pair = ''] = result.replaceAll('\u00a0', ' ').split('Stage pair:');
  expect(pair).toMatch(/ {2}Output transformer\n/);
  expect(pair).toMatch(/Power in the loudspeaker +[\d.]+ W/);
  expect(pair).toMatch(/Most distortion +[\d.]+ % at [\d.]+ k?Hz/);
});
