import { describe, expect, test } from 'vitest';
import { countProblems, countText, problemReport } from '../../src/cli/problems.ts';
import type { Problem } from '../../src/problem/index.ts';
import { type Files, log, smallJournal, temporaryFolder, writeFiles } from '../support/journal.ts';
import { ran } from '../support/output.ts';

const problem = (part: Partial<Problem>): Problem => ({
  rule: 'value',
  severity: 'error',
  file: 'a.md',
  line: 1,
  column: 1,
  message: 'This is wrong.',
  ...part,
});

/** The report of problems in files of a new folder. */
const reported = (problems: Problem[], files: Files = {}) => problemReport(problems, writeFiles(files));

test('problems are printed by file and place, each with its line, a caret and a hint', async () => {
  const problems = [
    problem({ file: 'b.md', severity: 'warning', rule: 'odd', hint: 'Mend it.' }),
    problem({ line: 12, column: 3 }),
    problem({ line: 2, column: 7, message: 'That is wrong.' }),
  ];
  const files = {
    'a.md': `${Array.from({ length: 12 }, (_, index) => `line ${index + 1}`).join('\n')}\n`,
    'b.md': 'only\n',
  };
  expect(await reported(problems, files)).toBe(`a.md
  2:7  error  That is wrong.  [value]
    2 | line 2
      |       ^

  12:3  error  This is wrong.  [value]
    12 | line 12
       |   ^

b.md
  1:1  warning  This is wrong.  [odd]
    1 | only
      | ^
    Mend it.
`);
});

describe('the line of a problem', () => {
  const frame = async (content: string | Uint8Array, place: Partial<Problem>) => {
    const text = await reported([problem(place)], { 'a.md': content });
    return text.split('\n').slice(2, -1);
  };

  test.each([
    ['\r\n', 'a\r\nbc\r\n'],
    ['\r', 'a\rbc\r'],
  ])('is found whatever ends the lines: %j', async (_ending, content) => {
    expect(await frame(content, { line: 2, column: 2 })).toEqual(['    2 | bc', '      |  ^']);
  });

  test('has the caret under its column behind tabs', async () => {
    expect(await frame('\t\tkey: x\n', { column: 3 })).toEqual(['    1 |   key: x', '      |   ^']);
  });

  test('has the caret under its column behind a byte-order mark', async () => {
    expect(await frame('\ufeffkey: x\n', { column: 6 })).toEqual(['    1 | key: x', '      |      ^']);
  });

  test('is cut around a column far to the right', async () => {
    const [line = '', caret = ''] = await frame(`${'a'.repeat(500)}X${'b'.repeat(500)}\n`, { column: 501 });
    expect(line).toBe(`    1 | ${'a'.repeat(50)}X${'b'.repeat(49)}`);
    expect(caret.indexOf('^')).toBe(line.indexOf('X'));
  });

  test('may end before its column', async () => {
    expect(await frame('ab\n', { column: 3 })).toEqual(['    1 | ab', '      |   ^']);
  });

  test.each([
    ['is left out where it is empty', '\n', { line: 1 }],
    ['is left out where the file is shorter', 'a\n', { line: 9 }],
    ['is left out of a file that is not text', new Uint8Array([0x61, 0]), { line: 1 }],
  ])('%s', async (_title, content, place) => {
    expect(await frame(content, place)).toEqual([]);
  });

  test('is left out of a file that is not there, and of a folder', async () => {
    expect(await reported([problem({ file: 'gone.md' })])).toBe(
      'gone.md\n  1:1  error  This is wrong.  [value]\n',
    );
    const folder = await reported([problem({ file: 'logs' })], { 'logs/a.md': '' });
    expect(folder).toBe('logs\n  1:1  error  This is wrong.  [value]\n');
  });

  test('and the message cannot steer the terminal', async () => {
    const text = await reported([problem({ message: 'Not \u001b[31mred.', hint: 'Ring \u0007.' })], {
      'a.md': 'x\u001b[2J\u009b1my\n',
    });
    expect(text).toBe(
      'a.md\n  1:1  error  Not  [31mred.  [value]\n    1 | x [2J 1my\n      | ^\n    Ring  .\n',
    );
  });
});

test.each([
  [[], 'No problems.'],
  [['error'], '1 error.'],
  [['warning', 'warning'], '2 warnings.'],
  [['error', 'warning', 'error'], '2 errors, 1 warning.'],
] as const)('%j is counted in words', (severities, text) => {
  expect(countText(countProblems(severities.map((severity) => problem({ severity }))))).toBe(text);
});

describe('check', () => {
  test('of a sound journal says so and exits 0', async () => {
    const folder = writeFiles(smallJournal);
    expect(await ran('check', '--journal', folder)).toEqual({
      code: 0,
      result: '',
      notice: `${folder}: No problems.`,
    });
  });

  test('of a faulty journal prints its problems and exits 1', async () => {
    const folder = writeFiles({
      ...smallJournal,
      'logs/first/index.md': log('captures:\n\t- file: tone.csv\n'),
      'notes.md': '# Notes\n',
    });
    expect(await ran('check', '--journal', folder)).toEqual({
      code: 1,
      result: '',
      notice: `logs/first/index.md
  7:1  error  This line is indented with a tab, which YAML does not allow.  [yaml-syntax]
    7 |  - file: tone.csv
      | ^
    Indent with spaces.

notes.md
  1:1  warning  This Markdown file is not at a place where a record is expected, so it would not be published.  [stray-record]
    1 | # Notes
      | ^
    Records live in amplifiers/<amplifier>/, logs/<date>-<slug>/index.md, pages/ and the like.

${folder}: 1 error, 1 warning.`,
    });
  });

  test('of warnings alone exits 0', async () => {
    const { code, notice } = await ran('check', '--journal', writeFiles({ ...smallJournal, 'a.md': '' }));
    expect(code).toBe(0);
    expect(notice).toMatch(/: 1 warning\.$/);
  });

  test('of no journal says where it looked', async () => {
    const folder = `${temporaryFolder()}/nowhere`;
    expect(await ran('check', '--journal', folder)).toEqual({
      code: 1,
      result: '',
      notice: `journal.yaml
  1:1  error  The folder "${folder}" does not exist or is not a folder.  [journal-missing]
    Name the journal with --journal DIR.

${folder}: 1 error.`,
    });
  });
});
