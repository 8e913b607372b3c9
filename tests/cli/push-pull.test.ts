import { join } from 'node:path';
import { expect, test } from 'vitest';
import { writeFiles } from '../support/journal.ts';
import { ran } from '../support/output.ts';
import { schemaFaults } from '../support/schemas.ts';

const pair = `stages:
  - id: output
    topology: push-pull
    device: KT88
    connection: distributed-load
    tapTurns: 43 %
    bias: { cathodeResistor: 250 Ω }
    windingResistance: 80 Ω
    load: 5 kΩ
    mismatch: 10 %
supply: { plate: 460 V }
`;

function inFolder(content: string): string {
  return join(writeFiles({ 'pair.yaml': content }), 'pair.yaml');
}

test('load prints a pair: class, sharing of the cycle, limits at rest and at full drive, rules of load', async () => {
  const { code, result } = await ran('load', inFolder(pair));
  const text = result.replaceAll('\u00a0', ' ');
  expect(code).toBe(0);
  expect(text).toContain('Stage output: 2 × KT88 as distributed-load, push-pull');
  expect(text).toMatch(/Class at this drive +A/);
  expect(text).toMatch(/Load, plate to plate +5\.00 kΩ/);
  expect(text).toMatch(/plate dissipation, at rest +[\d.]+ W/);
  expect(text).toMatch(/plate dissipation, at full drive +[\d.]+ W/);
  expect(text).toMatch(/largest power +[\d.]+ kΩ/);
  // Twice 460 V with the mains 10 % high.
  expect(text).toContain('1.01 kV with the mains 10 % high');
});

test('load --json of a pair meets its schema, which notices another name', async () => {
  const { code, result } = await ran('load', inFolder(pair), '--json');
  const document = JSON.parse(result) as { stages: { atLoad: Record<string, unknown> }[] };
  expect(code).toBe(0);
  expect(schemaFaults('load', document)).toEqual([]);
  const { class: found, ...rest } = document.stages[0]?.atLoad ?? {};
  expect(found).toBe('A');
  const renamed = { ...document, stages: [{ ...document.stages[0], atLoad: { ...rest, kind: found } }] };
  expect(schemaFaults('load', renamed)).not.toEqual([]);
});

test('a fault of a pair stands at its key', async () => {
  const { code, notice } = await ran('load', inFolder(pair.replace('250 Ω }', '250 Ω, bypassed: false }')));
  expect(code).toBe(1);
  expect(notice).toMatch(/pair\.yaml\n +7:47 +error/);
  expect(notice).toContain('The common cathode resistor of a pair is computed with its capacitor only.');
});
