import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { toneCsv, version, versionWith, writeFiles } from '../support/journal.ts';
import { ran } from '../support/output.ts';

const notice =
  'The voltages inside an amplifier can kill, also long after it is switched off and unplugged. Follow your local codes, and leave mains and high-voltage work to licensed or qualified people.';

const stages = `stages:
  - { id: output, topology: single-ended, device: 2A3, connection: triode, plate: 250 V, bias: { cathodeResistor: 750 Ω }, load: 2.5 kΩ }
supply:
  plate: 300 V
  reservoir: [ { capacitance: 47 µF, ratedVoltage: 450 V, bleeder: 220 kΩ } ]
`;

const inFolder = (content: string, file: string) => join(writeFiles({ [file]: content }), file);

describe('load', () => {
  test('of a version record prints its load sheet and the safety notice', async () => {
    const { code, result, notice: noticed } = await ran('load', inFolder(versionWith(stages), 'v1.md'));
    expect({ code, noticed }).toEqual({ code: 0, noticed: '' });
    expect(result).toMatch(
      /^Stage output: 2A3 as triode, single-ended\n\n {2}Operating point\n {4}Plate +250\u00a0V, 59\.\d\u00a0mA\n/,
    );
    for (const heading of ['Limits', 'At the load', 'Loads that the rules give', 'How far the rules move']) {
      expect(result).toContain(`\n\n  ${heading}\n    `);
    }
    expect(result).toContain('\n\nSupply\n');
    expect(result.endsWith(`\n${notice}`)).toBe(true);
  });

  test('of a stand-alone description prints the same', async () => {
    const record = await ran('load', inFolder(versionWith(stages), 'v1.md'));
    expect(await ran('load', inFolder(stages, 'stage.yaml'))).toEqual(record);
  });

  test('prints warnings apart from the sheet', async () => {
    const file = inFolder(stages.replace(', bleeder: 220 kΩ', ''), 'stage.yaml');
    const { code, result, notice: noticed } = await ran('load', file);
    expect(code).toBe(0);
    expect(noticed).toContain('5:14  warning  No bleeder is described');
    expect(result).toMatch(/^Stage output/);
  });

  test('of a record with neither stages nor supply prints why and exits 1', async () => {
    expect(await ran('load', inFolder(version, 'v1.md'))).toEqual({
      code: 1,
      result: '',
      notice: `v1.md
  1:1  error  The file describes neither stages nor a supply.  [nothing-to-compute]
    1 | ---
      | ^
    Add stages: or supply: as in a version record.
`,
    });
  });

  test('of a file that is not there prints why and exits 1', async () => {
    expect(await ran('load', '/nowhere/v1.md')).toEqual({
      code: 1,
      result: '',
      notice: 'v1.md\n  1:1  error  The file cannot be read: it does not exist.  [unreadable]\n',
    });
  });
});

describe('inspect', () => {
  test('prints how a capture was read, its summary and the safety notice', async () => {
    const { code, result, notice: noticed } = await ran('inspect', inFolder(toneCsv(), 'tone.csv'));
    expect(code).toBe(0);
    expect(result).toMatch(/^tone\.csv: waveform\n/);
    expect(result).toMatch(/5000 rows from line 2/);
    expect(result).toMatch(/THD +1\.000\u00a0%/);
    expect(noticed).toBe(`\n${notice}`);
  });

  test('takes kind, columns, harmonics and load from the command line', async () => {
    const file = inFolder(toneCsv(), 'tone.csv');
    const options = ['--map', 'out=speaker (V)', '--harmonics', '3', '--load', '8', '--kind', 'waveform'];
    const { code, result } = await ran('inspect', file, ...options, '--json');
    const document = JSON.parse(result) as { channels: { name: string; harmonics: { order: number }[] }[] };
    expect(code).toBe(0);
    expect(
      document.channels.map(({ name, harmonics }) => [name, harmonics.map(({ order }) => order)]),
    ).toEqual([['out', [2, 3]]]);
  });

  test('--declare prints a declaration that a log can take', async () => {
    const { code, result } = await ran('inspect', inFolder(toneCsv(), 'tone.csv'), '--declare');
    expect(code).toBe(0);
    expect(result).toMatch(/^captures:\n {2}- file: tone\.csv\n {4}title: Say what this capture shows\n/);
    const keys = result.replace('Say what this capture shows', 'Tone');
    const log = `---\ntitle: Log\ndate: 2026-01-18\namplifier: amplifiers/tern\nquestion: Why?\n${keys}\n---\n`;
    const folder = writeFiles({
      'journal.yaml': 'title: Bench notes\nauthor: The bench\n',
      'amplifiers/tern/index.md':
        '---\ntitle: Tern\npurpose: Test.\nkind: tube\ntopology: single-ended\n---\n',
      'logs/first/index.md': log,
      'logs/first/tone.csv': toneCsv(),
    });
    expect(await ran('check', '--journal', folder)).toMatchObject({
      code: 0,
      notice: `${folder}: No problems.`,
    });
  });

  test('of a file without numbers prints why and exits 1', async () => {
    const { code, result, notice: noticed } = await ran('inspect', inFolder('nothing\n', 'tone.csv'));
    expect({ code, result }).toEqual({ code: 1, result: '' });
    expect(noticed).toMatch(
      /^tone\.csv\n {2}1:1 {2}error {2}No rows of numbers were found in the file\. {2}\[/,
    );
  });
});
