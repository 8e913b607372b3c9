import { spawnSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';
import { withoutControls } from '../../src/cli/output.ts';
import { plainEnvironment } from '../support/command.ts';
import { writeFiles } from '../support/journal.ts';

const esc = String.fromCharCode(27);
const bell = String.fromCharCode(7);
const csi = String.fromCharCode(0x9b);

describe('what is printed', () => {
  test.each([
    ['colours', `a${esc}[31mb`, 'a\\u001b[31mb'],
    ['a title of the window', `${esc}]0;x${bell}`, '\\u001b]0;x\\u0007'],
    ['a control sequence in one character', `${csi}2J`, '\\u009b2J'],
    ['a return to the beginning of the line', 'error\rNo problems.', 'error\\u000dNo problems.'],
    ['a turn of the direction of writing', 'a\u202eb', 'a\\u202eb'],
  ])('has control characters written out: %s', (_title, text, printed) => {
    expect(withoutControls(text)).toBe(printed);
  });

  test('keeps line ends, tabs and every other letter', () => {
    expect(withoutControls('Ω\t4k7\nüé')).toBe('Ω\t4k7\nüé');
  });
});

test('names and headers of a file cannot write to the terminal that they are printed on', () => {
  const name = `tone${esc}[2J.csv`;
  const rows = Array.from({ length: 300 }, (_, i) => `${i * 1e-5},${Math.sin(i / 8).toFixed(5)}`);
  const text = `time (s),${esc}[31mout (V)\n${rows.join('\n')}\n`;
  const folder = writeFiles({ [name]: text, [`bad${esc}[31m.csv`]: `a${esc}[2J,b\n1,x\n` });
  const { stdout, stderr } = spawnSync(process.execPath, ['src/cli/main.ts', 'inspect', folder], {
    encoding: 'utf8',
    env: { ...plainEnvironment(), NO_COLOR: '1' },
  });
  expect(`${stdout}${stderr}`).not.toMatch(/(?![\n\t])\p{Cc}/u);
  expect(stdout).toContain('tone\\u001b[2J.csv: waveform');
  expect(stderr).toContain('bad [31m.csv');
});
