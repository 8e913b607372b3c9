import { join } from 'node:path';
import { expect, test } from 'vitest';
import { writeFiles } from '../support/journal.ts';
import { ran } from '../support/output.ts';
import { schemaFaults } from '../support/schemas.ts';

const stages = `stages:
  - id: tapped
    topology: single-ended
    device: KT88
    connection: distributed-load
    tapTurns: 43 %
    count: 2
    plate: 350 V
    bias: { cathodeResistor: 200 Ω }
    load: 2 kΩ
    measured: { plateCurrent: 75 mA, rescale: true }
  - id: traced
    topology: single-ended
    device: 300B
    connection: triode
    plate: 300 V
    bias: { grid: -60 V }
    load: 3 kΩ
    curves: family.csv
  - id: typed
    topology: resistance-coupled
    device: 6SN7GT
    connection: triode
    bias: { cathodeResistor: 1 kΩ }
    plateResistor: 47 kΩ
    smallSignal: { mu: 20, plateResistance: 7.7 kΩ }
`;
const rows = [-120, -90, -60, -30, 0].flatMap((grid) =>
  [0, 150, 300, 450, 600].map((plate) => `${plate},${grid},${Math.max(0, plate + 4 * grid)}`),
);
const files = {
  'stages.yaml': stages,
  'family.csv': `plate voltage (V),grid voltage (V),plate current (mA)\n${rows.join('\n')}\n`,
};

const file = () => join(writeFiles(files), 'stages.yaml');

test('load prints what a stage rests on, in blocks and in sentences', async () => {
  const text = (await ran('load', file())).result.replaceAll('\u00a0', ' ');
  for (const pattern of [
    /2 × KT88 in parallel in distributed load with the tap at 43 % of the turns, single-ended/,
    / {2}Distributed load\n {4}Tap, share of turns +43 %\n {4}As a share of impedance +18\.5 %/,
    / {2}Measured\n {4}Measured, each tube +75\.0 mA\n {4}Model there/,
    /Measured over modelled +0\.\d+, applied to all currents/,
    / {2}Model against traced curves\n {4}Curves +family\.csv\n {4}Points compared +\d+/,
    /The published model of the 300B misses the traced currents by/,
    / {2}Small-signal values as typed\n {4}Amplification factor +20\.0\n {4}Plate resistance +7\.70 kΩ/,
  ]) {
    expect(text).toMatch(pattern);
  }
  // A reason is printed once, however many figures it keeps away.
  expect(text.split('Typed small-signal values say nothing of large signals.')).toHaveLength(2);
});

test('load --json of such stages fits its schema, which notices another name of each part', async () => {
  const { result } = await ran('load', file(), '--json');
  const document = JSON.parse(result) as { stages: { [key: string]: unknown }[] };
  expect(schemaFaults('load', document)).toEqual([]);
  for (const [index, key] of [
    [0, 'tapRatio'],
    [0, 'count'],
    [0, 'measured'],
    [1, 'curvesFrom'],
    [1, 'modelFit'],
    [2, 'typed'],
  ] as const) {
    const copy = structuredClone(document);
    const stage = copy.stages[index] ?? {};
    expect(stage[key], key).not.toBeNull();
    stage[`${key}Renamed`] = stage[key];
    delete stage[key];
    expect(schemaFaults('load', copy), key).not.toEqual([]);
  }
});
