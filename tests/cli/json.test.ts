import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  log,
  smallJournal,
  temporaryFolder,
  toneCsv,
  version,
  versionWith,
  writeFiles,
} from '../support/journal.ts';
import { ran } from '../support/output.ts';
import { schemaFaults } from '../support/schemas.ts';

type Json = { [key: string]: unknown };

const stages = `stages:
  - { id: output, topology: single-ended, device: 2A3, connection: triode, plate: 250 V, bias: { cathodeResistor: 750 Ω }, load: 2.5 kΩ }
  - { id: driver, topology: resistance-coupled, device: 12AX7, connection: triode, bias: { cathodeResistor: 1.5 kΩ }, plateResistor: 100 kΩ, nextGridLeak: 470 kΩ }
supply:
  plate: 300 V
  current: 60 mA
  sourceResistance: 100 Ω
  reservoir: [ { capacitance: 47 µF, ratedVoltage: 450 V, bleeder: 220 kΩ, bleederPower: 2 W } ]
  filter: [ { kind: LC, inductance: 10 H, resistance: 100 Ω, capacitance: 47 µF } ]
  heaters: { windings: [ { name: all, voltage: 6.3 V, feeds: [ { device: 12AX7 }, { device: EL84, current: 0.76 A } ] } ] }
`;

/** A frequency sweep with level and distortion. */
const sweepCsv = `frequency (Hz),output (V),THD (%)
20,2.00,0.9
200,2.83,0.3
1000,2.83,0.2
10000,2.70,0.4
20000,2.00,0.8
`;

/** Runs a command with --json; the document is all that it prints. */
async function documentOf(...args: string[]): Promise<{ code: number; document: Json }> {
  const { code, result, notice } = await ran(...args, '--json');
  expect(notice).toBe('');
  return { code, document: JSON.parse(result) as Json };
}

/** Copies a document and calls one of its properties by another name; `path` leads to the property. */
function renamed(document: unknown, path: readonly (string | number)[]): unknown {
  const copy = structuredClone(document) as Json;
  const last = String(path.at(-1));
  let here: Json = copy;
  for (const step of path.slice(0, -1)) here = here[step] as Json;
  expect(here).toHaveProperty(last);
  here[`${last}Renamed`] = here[last];
  delete here[last];
  return copy;
}

describe('check --json', () => {
  const faulty = writeJournal({ 'logs/first/index.md': log('tags: hum\n'), 'notes.md': 'Text.' });

  function writeJournal(files: Record<string, string>) {
    return () => writeFiles({ ...smallJournal, ...files });
  }

  test('of a sound journal is a document without problems', async () => {
    const { code, document } = await documentOf('check', '--journal', writeFiles(smallJournal));
    expect({ code, document }).toEqual({
      code: 0,
      document: { schema: 'quiescent/check@1', problems: [], counts: { error: 0, warning: 0 } },
    });
    expect(schemaFaults('check', document)).toEqual([]);
  });

  test('of a faulty journal holds its problems and exits 1', async () => {
    const { code, document } = await documentOf('check', '--journal', faulty());
    expect({ code, document }).toEqual({
      code: 1,
      document: {
        schema: 'quiescent/check@1',
        problems: [
          {
            rule: 'wrong-type',
            severity: 'error',
            file: 'logs/first/index.md',
            line: 6,
            column: 7,
            message: 'A list is expected here, but this is "hum".',
          },
          {
            rule: 'stray-record',
            severity: 'warning',
            file: 'notes.md',
            line: 1,
            column: 1,
            message:
              'This Markdown file is not at a place where a record is expected, so it would not be published.',
            hint: 'Records live in amplifiers/<amplifier>/, logs/<date>-<slug>/index.md, pages/ and the like.',
          },
        ],
        counts: { error: 1, warning: 1 },
      },
    });
    expect(schemaFaults('check', document)).toEqual([]);
  });

  test('of warnings alone exits 0', async () => {
    const { code, document } = await documentOf(
      'check',
      '--journal',
      writeFiles({ ...smallJournal, 'a.md': '' }),
    );
    expect([code, document['counts']]).toEqual([0, { error: 0, warning: 1 }]);
  });

  test('of no journal is a document all the same', async () => {
    const { code, document } = await documentOf('check', '--journal', join(temporaryFolder(), 'nowhere'));
    expect([code, document['counts']]).toEqual([1, { error: 1, warning: 0 }]);
    expect(schemaFaults('check', document)).toEqual([]);
  });

  test.each([[['problems']], [['counts', 'error']], [['problems', 0, 'rule']], [['problems', 1, 'hint']]])(
    'has a schema that notices another name of %j',
    async (path) => {
      const { document } = await documentOf('check', '--journal', faulty());
      expect(schemaFaults('check', renamed(document, path))).not.toEqual([]);
    },
  );
});

const chained = `supply: { plate: 330 V }
stages:
  - { id: input, topology: resistance-coupled, device: 12AX7, connection: triode, bias: { cathodeResistor: 1.5 kΩ }, plateResistor: 100 kΩ, nextGridLeak: 470 kΩ, couplingCapacitor: 100 nF, bypassCapacitor: 22 µF }
  - { id: splitter, topology: split-load, device: 12AU7, bias: { resistor: 1 kΩ }, plateResistor: 22 kΩ, cathodeResistor: 21 kΩ }
  - { id: pair, topology: long-tailed, device: 12AX7, bias: { gridVoltage: 85 V }, plateResistor: 100 kΩ, tail: { resistor: 56 kΩ } }
  - { id: follower, topology: cathode-follower, device: 12AU7, bias: { gridVoltage: 130 V }, cathodeResistor: 22 kΩ }
  - { id: output, topology: single-ended, device: 2A3, connection: triode, plate: 250 V, bias: { cathodeResistor: 750 Ω }, load: 2.5 kΩ }
chain: { source: { level: 2 V, impedance: 100 Ω }, feedback: 6 dB, speaker: 8 Ω }
`;

describe('load --json', () => {
  const inFolder = (content: string, file = 'v1.md') => join(writeFiles({ [file]: content }), file);

  test('of a version record is a load sheet with the safety notice', async () => {
    const file = inFolder(versionWith(stages));
    const { code, document } = await documentOf('load', file);
    expect(code).toBe(0);
    expect(document).toMatchObject({
      schema: 'quiescent/load@1',
      file,
      stages: [{ id: 'output' }, { id: 'driver' }],
      problems: [],
    });
    expect(document['notice']).toMatch(/can kill.*Follow your local codes/);
    expect(schemaFaults('load', document)).toEqual([]);
  });

  test('of followers, splitters and a chain keeps to the schema too', async () => {
    const { code, document } = await documentOf('load', inFolder(chained, 'amplifier.yaml'));
    expect(code).toBe(0);
    expect(document).toMatchObject({
      chain: { firstToRunOut: expect.any(String), powerW: expect.any(Number) },
    });
    expect(schemaFaults('load', document)).toEqual([]);
  });

  test.each([
    [['chain', 'sensitivityVrms']],
    [['chain', 'links', 0, 'headroomDb']],
    [['stages', 0, 'coupling', 'shelf', 'depthDb']],
    [['stages', 1, 'outputs', 0, 'outputOhm']],
    [['stages', 1, 'balance', 'equalOhm']],
    [['stages', 2, 'points', 1, 'plateA']],
  ])('has a schema that notices another name of %j in a chain', async (path) => {
    const { document } = await documentOf('load', inFolder(chained, 'amplifier.yaml'));
    expect(schemaFaults('load', renamed(document, path))).not.toEqual([]);
  });

  test('of a stand-alone description is the same sheet', async () => {
    const record = await documentOf('load', inFolder(versionWith(stages)));
    const alone = await documentOf('load', inFolder(stages, 'stages.yaml'));
    expect({ ...alone.document, file: '' }).toEqual({ ...record.document, file: '' });
  });

  test.each([
    ['a file that is not there', join('/nowhere', 'v1.md'), null],
    ['a record with neither stages nor supply', null, version],
    ['a tube that is not known', null, versionWith(stages.replace('2A3', '2A4'))],
  ])('of %s tells why and exits 1', async (_title, file, content) => {
    const { code, document } = await documentOf('load', file ?? inFolder(content ?? ''));
    expect(code).toBe(1);
    expect(Object.keys(document).sort()).toEqual(['file', 'notice', 'problems', 'schema']);
    expect(schemaFaults('load', document)).toEqual([]);
  });

  test.each([
    [['notice']],
    [['stages', 0, 'operatingPoint', 'plateV']],
    [['stages', 0, 'limits', 0, 'share']],
    [['stages', 0, 'atLoad', 'harmonics', 0, 'ratio']],
    [['stages', 0, 'candidates', 0, 'basis']],
    [['stages', 0, 'sweep', 0, 'secondRatio']],
    [['supply', 'timeTo60VoltsWithoutBleederS']],
    [['supply', 'thresholds', 0, 'above']],
  ])('has a schema that notices another name of %j', async (path) => {
    const { document } = await documentOf('load', inFolder(versionWith(stages)));
    expect(schemaFaults('load', renamed(document, path))).not.toEqual([]);
  });
});

describe('inspect --json', () => {
  const inFolder = (content: string | Uint8Array) => join(writeFiles({ 'tone.csv': content }), 'tone.csv');

  test('of a waveform is its summary with the safety notice', async () => {
    const { code, document } = await documentOf('inspect', inFolder(toneCsv(['grid', 'speaker'])));
    expect(code).toBe(0);
    expect(document).toMatchObject({
      schema: 'quiescent/inspect@1',
      kind: 'waveform',
      table: { rows: 5000, firstDataLine: 2 },
      sampling: { rateHz: 50_000 },
      channels: [{ name: 'grid' }, { name: 'speaker', unit: 'V' }],
    });
    expect(document['notice']).toMatch(/can kill.*Follow your local codes/);
    expect(schemaFaults('inspect', document)).toEqual([]);
  });

  test('of a sweep holds its channels', async () => {
    const { code, document } = await documentOf('inspect', inFolder(sweepCsv));
    expect(code).toBe(0);
    expect(document).toMatchObject({ kind: 'frequency-sweep', sweeps: [{ channel: 'output' }] });
    expect(schemaFaults('inspect', document)).toEqual([]);
  });

  test.each([
    ['an empty file', ''],
    ['a text without numbers', 'nothing to see\n'],
    ['bytes', new Uint8Array([0, 1, 2, 3, 0, 255])],
  ])('of %s tells why and exits 1', async (_title, content) => {
    const { code, document } = await documentOf('inspect', inFolder(content));
    expect(code).toBe(1);
    expect(Object.keys(document).sort()).toEqual(['file', 'notice', 'problems', 'schema']);
    expect(schemaFaults('inspect', document)).toEqual([]);
  });

  test.each([
    ['a file that is not there', 'gone.csv', 'unreadable', 'The file cannot be read: it does not exist.'],
    [
      'a folder without captures',
      '.',
      'no-captures',
      'The folder holds no capture: no file in it or below it ends in .csv, .tsv or .txt.',
    ],
  ])('of %s tells why and exits 1', async (_title, file, rule, message) => {
    const { code, document } = await documentOf('inspect', join(temporaryFolder(), file));
    expect(code).toBe(1);
    expect(document['problems']).toMatchObject([{ rule, message }]);
    expect(schemaFaults('inspect', document)).toEqual([]);
  });

  test.each([
    [['notice']],
    [['sha256']],
    [['sampling', 'rateHz']],
    [['table', 'columns', 0, 'conversion']],
    [['channels']],
    [['channels', 0, 'noiseRms']],
    [['channels', 0, 'fundamental', 'phaseDeg']],
    [['channels', 0, 'harmonics', 0, 'relativePhaseDeg']],
    [['channels', 0, 'thd', 'low']],
    [['channels', 0, 'thdPlusNoise', 'bandHz']],
  ])('has a schema that notices another name of %j', async (path) => {
    const { document } = await documentOf('inspect', inFolder(toneCsv()));
    expect(schemaFaults('inspect', renamed(document, path))).not.toEqual([]);
  });
});
