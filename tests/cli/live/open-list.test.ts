import { expect, test } from 'vitest';
import { changesText } from '../../../src/cli/live/open-list.ts';
import type { Problem } from '../../../src/problem/index.ts';
import { writeFiles } from '../../support/journal.ts';

const folder = () => writeFiles({ 'a.md': 'one\ntwo\nthree\n' });
const problem = (message: string, line = 2, severity: Problem['severity'] = 'error'): Problem => ({
  ...{ file: 'a.md', line, column: 1, rule: 'made-up', severity, message },
});
const plain = { name: 'bench', redraws: false };

test('a new problem is told whole, and one that stays open only by its place', async () => {
  const [old, fresh] = [problem('The first.'), problem('The second.', 3)];
  const text = await changesText([old], [old, fresh], { folder: folder(), ...plain });
  expect(text).toBe(
    'a.md\n  3:1  error  The second.  [made-up]\n    3 | three\n      | ^\n\nopen: a.md:2:1 The first.\nbench: 2 errors.',
  );
});

test('a mended problem is told in one line, with what is left', async () => {
  const warning = problem('A warning.', 1, 'warning');
  const text = await changesText([problem('The first.'), warning], [warning], { folder: folder(), ...plain });
  expect(text).toBe('mended: a.md:2:1 The first.\nbench: 1 warning.');
});

test('nothing is told where nothing changed, not even where a problem moved to another line', async () => {
  const telling = { folder: folder(), ...plain };
  expect(await changesText([problem('The first.')], [problem('The first.', 3)], telling)).toBeNull();
  expect(await changesText([], [], telling)).toBeNull();
});

test('a problem that occurs twice is open until both are mended', async () => {
  const twice = [problem('The first.'), problem('The first.', 3)];
  const text = await changesText(twice, [problem('The first.')], { folder: folder(), ...plain });
  expect(text).toBe('mended: a.md:3:1 The first.\nopen: a.md:2:1 The first.\nbench: 1 error.');
});

test('of many mended problems the first ten are named and the rest counted', async () => {
  const many = Array.from({ length: 12 }, (_, index) => problem(`Number ${index}.`));
  const lines = (await changesText(many, [], { folder: folder(), ...plain }))?.split('\n') ?? [];
  expect(lines).toHaveLength(12);
  expect(lines.slice(-2)).toEqual(['mended: 2 more', 'bench: No problems.']);
});

test('where the earlier list is wiped away, every open problem is told whole again', async () => {
  const [old, fresh] = [problem('The first.'), problem('The second.', 3)];
  const text = await changesText([old], [old, fresh], { folder: folder(), ...plain, redraws: true });
  expect(text).toContain('2:1  error  The first.  [made-up]\n    2 | two');
  expect(text).toContain('3:1  error  The second.  [made-up]\n    3 | three');
  expect(text).not.toContain('open:');
});

test('characters that would move the cursor are not printed', async () => {
  const text = await changesText([problem('A\u001b[2Jb.')], [], { folder: folder(), ...plain });
  expect(text).toBe('mended: a.md:2:1 A [2Jb.\nbench: No problems.');
});
