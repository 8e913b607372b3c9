import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { plainEnvironment } from '../support/command.ts';
import { toneCsv, writeFiles } from '../support/journal.ts';
import { ran } from '../support/output.ts';
import { schemaFaults } from '../support/schemas.ts';

const sweep = 'frequency (Hz),load (V),THD (%)\n20,2.8,0.8\n1000,2.83,0.2\n20000,2.7,0.4\n';
const several = { 'a/tone.csv': toneCsv(), 'a/b/thd.csv': sweep, 'a/readme.md': 'x', '.hidden/c.csv': 'x' };

describe('inspect of several captures', () => {
  test('reports them in the order of the command line, with one safety notice', async () => {
    const folder = writeFiles(several);
    const files = ['a/b/thd.csv', 'a/tone.csv'].map((file) => join(folder, file));
    const { code, result, notice } = await ran('inspect', ...files);
    expect(code).toBe(0);
    expect(result.match(/^\S+: [a-z-]+$/gm)).toEqual(['thd.csv: frequency-sweep', 'tone.csv: waveform']);
    expect(notice.match(/can kill/g)).toHaveLength(1);
  });

  test('takes a folder with all captures below it, hidden ones left out', async () => {
    const { result } = await ran('inspect', writeFiles(several));
    expect(result.match(/^\S+: [a-z-]+$/gm)).toEqual([
      'a/b/thd.csv: frequency-sweep',
      'a/tone.csv: waveform',
    ]);
  });

  test('prints one document for all, each entry as the file alone would give it', async () => {
    const folder = writeFiles(several);
    const files = ['a/tone.csv', 'a/b/thd.csv'].map((file) => join(folder, file));
    const { result } = await ran('inspect', ...files, '--json');
    const document = JSON.parse(result) as { captures: unknown[] };
    expect(schemaFaults('inspections', document)).toEqual([]);
    const alone = await Promise.all(
      files.map(async (file) => JSON.parse((await ran('inspect', file, '--json')).result)),
    );
    expect(document.captures).toEqual(alone);
  });

  test('prints one declaration for all', async () => {
    const { result } = await ran('inspect', writeFiles(several), '--declare');
    expect(parse(result)).toMatchObject({
      captures: [
        { file: 'a/b/thd.csv', kind: 'frequency-sweep' },
        { file: 'a/tone.csv', kind: 'waveform' },
      ],
    });
  });

  test('reports the sound ones and the problems of the others, and exits 1', async () => {
    const folder = writeFiles({ 'tone.csv': toneCsv(), 'odd.csv': 'time (s),v (V)\n0,1\n1,x\n' });
    const { code, result, notice } = await ran('inspect', folder);
    expect(code).toBe(1);
    expect(result).toMatch(/^tone\.csv: waveform\n/);
    expect(notice).toContain('odd.csv\n  3:3  error');
  });
});

/** The command in a process of its own, with an input or in a terminal's stead. */
const withInput = (input: string, ...args: string[]) =>
  spawnSync(process.execPath, ['src/cli/main.ts', ...args], {
    encoding: 'utf8',
    env: plainEnvironment(),
    input,
  });

test('inspect - reads standard input', () => {
  const { status, stdout } = withInput(sweep, 'inspect', '-');
  expect(status).toBe(0);
  expect(stdout).toMatch(/^standard input: frequency-sweep\n/);
});

test('a reader that has seen enough ends the command without a stack trace', () => {
  const folder = writeFiles({ 'tone.csv': toneCsv() });
  const file = join(folder, 'tone.csv');
  const many = Array.from({ length: 40 }, () => `'${file}'`).join(' ');
  const command = `'${process.execPath}' src/cli/main.ts inspect ${many} | head -1`;
  const { stdout, stderr } = spawnSync('sh', ['-c', command], { encoding: 'utf8', env: plainEnvironment() });
  expect(stdout).toBe('tone.csv: waveform\n');
  expect(stderr).not.toMatch(/EPIPE|at .*\.ts/);
});

describe('the chart in the terminal', () => {
  test('has a bar for each harmonic above the noise: 1 % is 40 of 120 dB below the fundamental', async () => {
    const { result } = await ran('inspect', join(writeFiles({ 'tone.csv': toneCsv() }), 'tone.csv'));
    const [, bar = ''] = /^ {4}2 +(█+) +−40\.0 dB$/m.exec(result) ?? [];
    // Forty blocks are 120 dB, and 80 dB of them are 26.7.
    expect(bar).toHaveLength(27);
    expect(result).toMatch(/^ {4}3 +not told from noise$/m);
  });

  test('of a sweep goes along its axis, from its least to its greatest value', async () => {
    const { result } = await ran('inspect', join(writeFiles({ 'thd.csv': sweep }), 'thd.csv'));
    const bars = [...result.matchAll(/^ {4}([\d.]+)\sk?Hz +(█+) +(\S+) %$/gm)].map(
      ([, at, bar = '', value]) => [at, bar.length, value],
    );
    // The least keeps a tenth of forty blocks; 0.4 is half way from 0.2 to 0.8 in ratio: 4 + 36/2 = 22.
    expect(bars).toEqual([
      ['20.0', 40, '0.800'],
      ['1.00', 4, '0.200'],
      ['20.0', 22, '0.400'],
    ]);
  });

  test('shows at most sixteen points, both ends among them', async () => {
    const rows = Array.from({ length: 100 }, (_, i) => `${20 * 1.07 ** i},${1 + i / 100}`);
    const csv = `frequency (Hz),impedance (Ω)\n${rows.join('\n')}\n`;
    const { result } = await ran('inspect', join(writeFiles({ 'z.csv': csv }), 'z.csv'));
    expect(result).toContain('16 of 100 points');
    expect(result.match(/^ {4}[\d.]+\sk?Hz +█+/gm)).toHaveLength(16);
    expect(result).toMatch(/^ {4}20\.0\sHz +█+ +1\.00\sΩ$/m);
    expect(result).toMatch(/█{40} +1\.99\sΩ$/m);
  });
});

describe('colours', () => {
  const faulty = () => join(writeFiles({ 'odd.csv': 'time (s),v (V)\n0,1\n1,x\n' }), 'odd.csv');
  const inspected = (more: NodeJS.ProcessEnv) =>
    spawnSync(process.execPath, ['src/cli/main.ts', 'inspect', faulty()], {
      encoding: 'utf8',
      env: { ...plainEnvironment(), FORCE_COLOR: undefined, NO_COLOR: undefined, ...more },
    }).stderr;

  test('mark severity and file where they are wanted', () => {
    expect(inspected({ FORCE_COLOR: '1' })).toContain('\u001b[31merror\u001b[39m');
  });

  test.each([
    ['away from a terminal', {}],
    ['with NO_COLOR', { NO_COLOR: '1' }],
  ])('are off %s', (_title, more) => {
    expect(inspected(more)).not.toContain('\u001b');
  });
});
