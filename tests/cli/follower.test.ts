import { join } from 'node:path';
import { expect, test } from 'vitest';
import { writeFiles } from '../support/journal.ts';
import { ran } from '../support/output.ts';
import { schemaFaults } from '../support/schemas.ts';

const stages = `stages:
  - id: output
    topology: follower-pair
    rails: 18 V
    load: 8 Ω
    emitterResistor: 0.1 Ω
    biasCurrent: 40 mA
    lossVoltage: 2 V
    power: 10 W
    thermal: { junctionToCase: 1.2 K/W, caseToSink: 0.5 K/W, sinkToAmbient: 2.2 K/W, ambient: 40 °C, maxJunction: 150 °C }
    ratings: { voltage: 60 V, power: 60 W, source: invented }
  - { id: headphones, topology: follower, rail: 24 V, outputCapacitor: 470 µF, load: 32 Ω, sinkResistor: 68 Ω, lossVoltage: 1 V }
`;

type Json = Record<string, unknown>;
const file = () => join(writeFiles({ 'stage.yaml': stages }), 'stage.yaml');
const documentOf = async (path: string) => JSON.parse((await ran('load', path, '--json')).result) as Json;

test('load --json of transistor stages keeps to its schema', async () => {
  const document = await documentOf(file());
  expect(document).toMatchObject({ stages: [{ topology: 'follower-pair' }, { topology: 'follower' }] });
  expect(schemaFaults('load', document)).toEqual([]);
});

test('load --json of a faulty transistor stage keeps to its schema', async () => {
  const faulty = join(
    writeFiles({ 'stage.yaml': stages.replace('lossVoltage: 2 V', 'lossVoltage: 20 V') }),
    'stage.yaml',
  );
  const document = await documentOf(faulty);
  expect(document['problems']).toMatchObject([{ rule: 'load/no-output', line: 8 }]);
  expect(schemaFaults('load', document)).toEqual([]);
});

test.each([
  [['largest', 'outputW']],
  [['worst', 'balance', 'emitterW']],
  [['thermal', 'worst', 'junctionC']],
  [['loads', 0, 'worstDeviceW']],
  [['byOutput', 0, 'deviceW']],
  [['byLoad', 0, 'reactiveW']],
  [['limits', 0, 'share']],
  [['biasReadingV']],
])('the schema notices another name of %j', async (path: (string | number)[]) => {
  const document = await documentOf(file());
  let here = (document['stages'] as Json[])[0] as Json;
  for (const step of path.slice(0, -1)) here = here[step] as Json;
  const last = String(path.at(-1));
  expect(here).toHaveProperty(last);
  here[`${last}Renamed`] = here[last];
  delete here[last];
  expect(schemaFaults('load', document)).not.toEqual([]);
});

test('load prints rest, outputs, temperatures, other loads and limits of a transistor stage', async () => {
  const { code, result } = await ran('load', file());
  const text = result.replaceAll('\u00a0', ' ');
  expect(code).toBe(0);
  for (const line of [
    'Stage output: complementary pair of followers, split supply',
    'Across emitter resistors  8.00 mV',
    'At the stated power',
    'Where a transistor is hottest',
    '8.00 Ω at 45°',
    'Temperatures',
    'below the stated maximum junction temperature of 150 °C',
    'Stage headphones: single follower, class A, single supply',
    '−3 dB of the output capacitor  10.6 Hz', // 1/(2π · 32 Ω · 470 µF)
  ]) {
    expect(text).toContain(line);
  }
});
