import { describe, expect, test } from 'vitest';
import { openJournal, openLoadFile } from '../../src/journal/index.ts';
import {
  type Files,
  problemText,
  smallJournal,
  version,
  versionWith,
  writeFiles,
} from '../support/journal.ts';

const stage =
  '{ id: output, topology: single-ended, device: 2A3, connection: triode, plate: 250 V, bias: { cathodeResistor: 750 Ω }, load: 2.5 kΩ }';
const supply = `supply:
  plate: 300 V
  current: 60 mA
  offLoad: 340 V
  reservoir:
    - { capacitance: 47 µF, ratedVoltage: 450 V, bleeder: 220 kΩ }
    - { capacitance: 47 µF, ratedVoltage: 350 V }
  filter:
    - kind: RC
      resistance: 100 Ω
      capacitance: 47 µF
      ratedVoltage: 350 V
`;

/** Opens one file of a new folder; problems as text, with plain spaces. */
async function opened(files: Files, file: string) {
  const { sheet, problems } = await openLoadFile(writeFiles(files), file);
  return { sheet, problems: `\n${problems.map(problemText).join('\n')}\n`.replaceAll('\u00a0', ' ') };
}

test('a stand-alone description gives the sheet of the same keys in a version record', async () => {
  const description = `stages:\n  - ${stage}\nsupply: { plate: 300 V }\n`;
  const alone = await opened({ 'stage.yaml': description }, 'stage.yaml');
  const record = await opened({ 'v1.md': versionWith(description) }, 'v1.md');
  expect(alone.problems).toBe('\n\n');
  expect(alone.sheet?.stages).toMatchObject([{ id: 'output', operatingPoint: { plateV: 250 } }]);
  expect(record).toEqual(alone);
});

test('a journal computes the sheet of each version, with the mains of journal.yaml', async () => {
  const folder = writeFiles({
    ...smallJournal,
    'journal.yaml': `${smallJournal['journal.yaml']}mains: 60 Hz\n`,
    'amplifiers/tern/v2.md': versionWith(supply),
  });
  const { journal } = await openJournal(folder);
  const [without, withSupply] = journal?.versions ?? [];
  const { sheet: at50 } = await opened({ 'supply.yaml': supply }, 'supply.yaml');
  expect(without?.sheet).toBeNull();
  // Ripple of a full-wave rectifier goes with one over the mains frequency.
  expect(withSupply?.sheet?.supply?.rippleVrms).toBeCloseTo(((at50?.supply?.rippleVrms ?? 0) * 50) / 60, 9);
});

describe('a fault found while computing stands at its key', () => {
  const warning = (line: number, column: number) => `
supply.yaml:${line}:${column} warning load/capacitor-rating
  The capacitor is rated 350 V, but it can see 374 V off load with the mains 10 % high.
  Use a capacitor of a higher rated voltage.`;

  test('capacitors of reservoir and filter', async () => {
    const { problems } = await opened({ 'supply.yaml': supply }, 'supply.yaml');
    expect(problems).toBe(`${warning(7, 43)}${warning(12, 21)}\n`);
  });

  test('the same in a version record, behind its frontmatter', async () => {
    const { problems } = await opened({ 'v1.md': versionWith(supply) }, 'v1.md');
    expect(problems.match(/v1\.md:\d+:\d+/g)).toEqual(['v1.md:12:43', 'v1.md:17:21']);
  });

  test.each([
    [
      'a capacitance',
      '47 µF, ratedVoltage: 450 V, bleeder',
      '47 F, ratedVoltage: 450 V, bleeder',
      '6:22',
      '47.0 F',
    ],
    ['a filter capacitance', '      capacitance: 47 µF', '      capacitance: 47 F', '11:20', '47.0 F'],
    ['a bleeder', 'bleeder: 220 kΩ', 'bleeder: 0 Ω', '6:59', '0 Ω'],
    ['a filter resistor', '100 Ω', '-100 Ω', '10:19', '−100 Ω'],
    ['the voltage', 'plate: 300 V', 'plate: 300 kV', '2:10', '300 kV'],
    ['the voltage of a rail', 'plate: 300 V', 'rails: 300 kV', '2:10', '300 kV'],
    ['the off-load voltage', 'offLoad: 340 V', 'offLoad: 0 V', '4:12', '0 V'],
  ])('%s out of range', async (_title, sound, wrong, place, shown) => {
    const source = supply.replace(sound, wrong);
    expect(source).not.toBe(supply);
    const { problems } = await opened({ 'supply.yaml': source }, 'supply.yaml');
    expect(problems).toContain(`\nsupply.yaml:${place} error load/out-of-range\n  ${shown} is outside`);
  });

  test('a supply without any bleeder is told at its capacitors', async () => {
    const bare =
      'supply:\n  plate: 300 V\n  filter:\n    - { kind: LC, inductance: 10 H, capacitance: 47 µF }\n';
    const none = `
  No bleeder is described: without one the capacitors stay charged after switching off.
  Add a bleeder to a capacitor, for example bleeder: 220 kΩ.
`;
    expect((await opened({ 'a.yaml': bare }, 'a.yaml')).problems).toBe(
      `\na.yaml:4:5 warning load/no-bleeder${none}`,
    );
    const reservoir = bare.replace('filter', 'reservoir').replace('kind: LC, inductance: 10 H, ', '');
    expect((await opened({ 'a.yaml': reservoir }, 'a.yaml')).problems).toBe(
      `\na.yaml:4:5 warning load/no-bleeder${none}`,
    );
  });

  test('a tube that is not known, in a stage', async () => {
    const source = `stages:\n  - ${stage}\n  - ${stage.replace('output', 'other').replace('2A3', '2A4')}\n`;
    expect((await opened({ 'stage.yaml': source }, 'stage.yaml')).problems).toBe(`
stage.yaml:3:50 error load/unknown-device
  There are no model parameters for "2A4".
  Did you mean 2A3?
`);
  });

  test('a tube type that YAML could take for a number keeps its name', async () => {
    const source = `stages:\n  - ${stage.replace('2A3', '6E5')}\n`;
    expect((await opened({ 'stage.yaml': source }, 'stage.yaml')).problems).toContain(
      'There are no model parameters for "6E5".',
    );
  });
});

describe('a file that gives no sheet', () => {
  test.each<[string, string, string | null, string]>([
    [
      'neither stages nor a supply',
      'v1.md',
      version,
      'v1.md:1:1 error nothing-to-compute\n  The file describes neither stages nor a supply.\n  Add stages: or supply: as in a version record.',
    ],
    [
      'an empty file',
      'stage.yaml',
      '',
      'stage.yaml:1:1 error nothing-to-compute\n  The file describes neither stages nor a supply.\n  Add stages: or supply: as in a version record.',
    ],
    [
      'a file that is not there',
      'stage.yaml',
      null,
      'stage.yaml:1:1 error unreadable\n  The file cannot be read: it does not exist.',
    ],
    [
      'keys that are not known',
      'stage.yml',
      'stage: {}\n',
      'stage.yml:1:1 error unknown-key\n  The key "stage" is not known here.\n  Did you mean stages?',
    ],
    [
      'bytes',
      'stage.yaml',
      '\u0000\u0001',
      'stage.yaml:1:1 error wrong-type\n  A group of keys is expected here, but this is "\u0000\u0001".',
    ],
  ])('%s', async (_title, file, content, expected) => {
    expect(await opened(content === null ? {} : { [file]: content }, file)).toEqual({
      sheet: null,
      problems: `\n${expected}\n`,
    });
  });

  test('a log', async () => {
    const source = '---\ntitle: First sound\nquestion: Does it hum?\n---\n';
    const { problems } = await openLoadFile(writeFiles({ 'index.md': source }), 'index.md');
    expect(problems.map(({ line, column, rule, message }) => `${line}:${column} ${rule} ${message}`)).toEqual(
      [
        '2:1 missing-key The key "date" is missing.',
        '2:1 missing-key The key "state" is missing.',
        '2:1 missing-key The key "summary" is missing.',
        '3:1 unknown-key The key "question" is not known here.',
      ],
    );
  });

  test('a folder', async () => {
    expect(await opened({ 'stage.yaml/a': '' }, 'stage.yaml')).toEqual({
      sheet: null,
      problems: '\nstage.yaml:1:1 error unreadable\n  The file cannot be read: it is a folder.\n',
    });
  });
});

describe('traced curves elsewhere in the journal', () => {
  const traced = `stages:
  - { id: output, topology: single-ended, device: 2A3, curves: ../../logs/tracing/curves.csv, connection: triode, plate: 250 V, bias: { current: 30 mA }, load: 2.5 kΩ }
`;
  /** The published three-halves law with made-up constants, at four grid voltages. */
  const row = (gridV: number, plateV: number) => {
    const drive = Math.max(0, plateV + 4.2 * gridV);
    return `${gridV},${plateV},${(1.3e-2 * drive ** 1.5).toFixed(4)}`;
  };
  const rows = [0, -20, -40, -60].flatMap((gridV) =>
    Array.from({ length: 21 }, (_, k) => row(gridV, 20 * k)),
  );
  const files = {
    ...smallJournal,
    'amplifiers/tern/v2.md': versionWith(traced),
    'logs/tracing/curves.csv': `grid (V),plate (V),plate current (mA)\n${rows.join('\n')}\n`,
  };

  test('load takes what check takes', async () => {
    const folder = writeFiles(files);
    const { journal } = await openJournal(folder);
    const checked = journal?.versions.find(({ id }) => id === 'amplifiers/tern/v2')?.sheet;
    const { sheet, problems } = await openLoadFile(`${folder}/amplifiers/tern`, 'v2.md');
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(sheet?.stages).toMatchObject([{ curvesFrom: '../../logs/tracing/curves.csv' }]);
    expect(sheet?.stages).toEqual(checked?.stages);
  });

  test('a fault in them is told at its line, from the folder of the record', async () => {
    const bad = files['logs/tracing/curves.csv'].replace('-20,100,', '-20,abc,');
    const folder = writeFiles({ ...files, 'logs/tracing/curves.csv': bad });
    const { problems } = await openLoadFile(`${folder}/amplifiers/tern`, 'v2.md');
    const told = problems.map(({ file, line }) => `${file}:${line}`);
    expect(told).toContain(
      `../../logs/tracing/curves.csv:${rows.findIndex((one) => one.startsWith('-20,100,')) + 2}`,
    );
  });

  test('what leads out of the journal is refused', async () => {
    const folder = writeFiles({
      ...files,
      'amplifiers/tern/v2.md': versionWith(traced.replace('../../logs', '../../../logs')),
    });
    const { sheet, problems } = await openLoadFile(`${folder}/amplifiers/tern`, 'v2.md');
    expect(sheet?.stages).toMatchObject([{ operatingPoint: null }]);
    expect(problems).toMatchObject([{ file: 'v2.md', rule: 'outside-journal', severity: 'error' }]);
  });
});
