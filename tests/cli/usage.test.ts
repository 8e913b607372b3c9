import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { smallJournal, temporaryFolder, writeFiles } from '../support/journal.ts';
import { ran } from '../support/output.ts';

describe('a command line that cannot be understood prints one line and exits 2', () => {
  const journal = () => writeFiles(smallJournal);

  test.each([
    ['no command', [], 'Give a command: build, check, dev, preview, inspect, load, init, new, or help.'],
    ['a misspelt command', ['chek'], 'There is no command "chek". Did you mean check?'],
    [
      'another word',
      ['publish'],
      'There is no command "publish". Commands: build, check, dev, preview, inspect, load, init, new.',
    ],
    [
      'a name that every object has',
      ['constructor'],
      'There is no command "constructor". Commands: build, check, dev, preview, inspect, load, init, new.',
    ],
    ['a misspelt option', ['check', '--jsn'], 'There is no option "--jsn" here. Did you mean --json?'],
    [
      'another option',
      ['check', '--verbose'],
      'There is no option "--verbose" here. Options: --journal, --json, --sarif, --timings.',
    ],
    [
      'a short option',
      ['check', '-j'],
      'There is no option "-j" here. Options: --journal, --json, --sarif, --timings.',
    ],
    ['an option without its value', ['build', '--out'], "Option '--out <value>' argument missing."],
    [
      'a value of an option that takes none',
      ['check', '--json=yes'],
      "Option '--json' does not take an argument.",
    ],
    ['words after check', ['check', 'content'], 'check takes options only, but was given "content".'],
    ['words after build', ['build', 'content'], 'build takes options only, but was given "content".'],
    ['words after dev', ['dev', 'content'], 'dev takes options only, but was given "content".'],
    ['words after preview', ['preview', 'dist'], 'preview takes options only, but was given "dist".'],
    ['two forms of check', ['check', '--json', '--sarif'], 'check prints --json or --sarif, not both.'],
    ['init without a folder', ['init'], 'init needs a folder: quiescent init DIR'],
    ['init with two folders', ['init', 'a', 'b'], 'init takes one folder, but "b" follows.'],
    ['standard input twice', ['inspect', '-', '-'], 'Standard input, "-", can be read once only.'],
    ['inspect without a file', ['inspect'], 'inspect needs a file: quiescent inspect FILE'],
    ['load without a file', ['load', '--json'], 'load needs a file: quiescent load FILE'],
    ['load with two files', ['load', 'a.md', 'b.md'], 'load takes one file, but "b.md" follows.'],
    [
      'a port that is no number',
      ['dev', '--port', 'x'],
      '--port takes a whole number from 1 to 65535, not "x".',
    ],
    ['a port of nothing', ['preview', '--port', ''], '--port takes a whole number from 1 to 65535, not "".'],
    [
      'a port too high',
      ['preview', '--port', '65536'],
      '--port takes a whole number from 1 to 65535, not "65536".',
    ],
    [
      'half a harmonic',
      ['inspect', 'a.csv', '--harmonics', '2.5'],
      '--harmonics takes a whole number from 2 to 100, not "2.5".',
    ],
    [
      'a kind that is none',
      ['inspect', 'a.csv', '--kind', 'wave'],
      '--kind takes one of waveform, two-tone, frequency-sweep, level-sweep, impedance-sweep, spectrum, plate-curves, readings, not "wave".',
    ],
    [
      'a load that is a voltage',
      ['inspect', 'a.csv', '--load', '8 V'],
      '--load: "8 V" is a voltage, but a resistance is expected here.',
    ],
    ['a load of nothing', ['inspect', 'a.csv', '--load', '0'], '--load takes a resistance above 0, not "0".'],
    ['a map without a column', ['inspect', 'a.csv', '--map', 'out='], '--map takes NAME=COLUMN, not "out=".'],
    ['a map without a name', ['inspect', 'a.csv', '--map', '=2'], '--map takes NAME=COLUMN, not "=2".'],
    [
      'an address that is none',
      ['build', '--site', 'example.org'],
      '--site takes an address without a path, such as https://example.org, not "example.org"; --base takes the path.',
    ],
    [
      'an address with a path',
      ['build', '--site', 'https://example.org/notes'],
      '--site takes an address without a path, such as https://example.org, not "https://example.org/notes"; --base takes the path.',
    ],
    [
      'a base with a host',
      ['build', '--base', 'https://example.org/'],
      '--base takes a path such as /notes/, not "https://example.org/".',
    ],
  ])('%s', async (_title, args, line) => {
    expect(await ran(...args)).toEqual({ code: 2, result: '', notice: `quiescent: ${line}` });
  });

  test('an out folder that holds the journal, and nothing is touched', async () => {
    const folder = journal();
    for (const out of [folder, join(folder, '..')]) {
      const { code, notice } = await ran('build', '--journal', folder, '--out', out);
      expect(code).toBe(2);
      expect(notice).toBe(
        `quiescent: --out ${out} would replace the folder that you work in; name one of its own.`,
      );
    }
    expect(existsSync(join(folder, 'journal.yaml'))).toBe(true);
  });

  test('an out folder that is the caller’s own', async () => {
    const { code, notice } = await ran('build', '--journal', journal(), '--out', '.');
    expect(code).toBe(2);
    expect(notice).toBe('quiescent: --out . would replace the folder that you work in; name one of its own.');
    expect(existsSync('package.json')).toBe(true);
  });

  test('an out folder with other files in it, and none of them is touched', async () => {
    const folder = journal();
    const out = writeFiles({ 'thesis.txt': 'Years of work.' });
    for (const full of [out, join(folder, 'logs')]) {
      const { code, notice } = await ran('build', '--journal', folder, '--out', full);
      expect(code).toBe(2);
      expect(notice).toBe(
        `quiescent: --out ${full} holds something else than a site; name an empty or new folder.`,
      );
    }
    expect(existsSync(join(out, 'thesis.txt'))).toBe(true);
    expect(existsSync(join(folder, 'logs/first/index.md'))).toBe(true);
  });
});

describe('help', () => {
  test.each(['help', '--help', '-h'])('%s lists every command and exits 0', async (word) => {
    const { code, result, notice } = await ran(word);
    expect({ code, notice }).toEqual({ code: 0, notice: '' });
    const lines = result.split('\n');
    expect(lines.slice(0, 4)).toEqual([
      'Usage: quiescent COMMAND',
      '',
      '  build [--journal DIR] [--out DIR] [--base /path/] [--site URL] [--timings]',
      '      check and compute a journal and write its site',
    ]);
    const named = lines.slice(2).filter((_line, index) => index % 2 === 0);
    expect(named.map((line) => line.trim().split(' ')[0])).toEqual([
      'build',
      'check',
      'dev',
      'preview',
      'inspect',
      'load',
      'init',
      'new',
    ]);
  });

  test.each(['--help', '-h'])('%s behind a command explains that one', async (word) => {
    expect(await ran('check', word)).toEqual({
      code: 0,
      result:
        'Usage: quiescent check [--journal DIR] [--json | --sarif] [--timings]\n\n  everything that build would refuse, without writing a site',
      notice: '',
    });
  });
});

test('preview of a folder without a site says so and exits 1', async () => {
  const out = join(temporaryFolder(), 'dist');
  expect(await ran('preview', '--out', out)).toEqual({
    code: 1,
    result: '',
    notice: `There is no site in ${out}. Build it first with the build command.`,
  });
});
