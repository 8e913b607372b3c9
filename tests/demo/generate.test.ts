import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';

const root = join(import.meta.dirname, '../..');
const committed = join(root, 'content');
const starter = join(root, 'shared/starter');
let generated = '';
let generatedStarter = '';

/** Captures and tracings; a list of parts is written by hand. */
const capturesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((file) => file.replaceAll('\\', '/'))
    .filter((file) => file.endsWith('.csv') && !file.startsWith('.') && !file.endsWith('-parts.csv'))
    .sort();

beforeAll(() => {
  generated = mkdtempSync(join(tmpdir(), 'demo-captures-'));
  generatedStarter = mkdtempSync(join(tmpdir(), 'starter-captures-'));
  execFileSync(process.execPath, [join(root, 'src/demo/generate.ts'), generated, generatedStarter]);
});

afterAll(() => {
  for (const folder of [generated, generatedStarter]) rmSync(folder, { recursive: true });
});

test('the generator writes exactly the captures that the demo journal holds', () => {
  expect(capturesIn(generated)).toEqual(capturesIn(committed));
});

test.each(capturesIn(committed))('%s comes out of the generator byte for byte', (file) => {
  const fresh = readFileSync(join(generated, file));
  expect(fresh.equals(readFileSync(join(committed, file)))).toBe(true);
});

test("so do exactly the captures of the newcomer's journal", () => {
  expect(capturesIn(generatedStarter)).toEqual(capturesIn(starter));
  for (const file of capturesIn(starter)) {
    const fresh = readFileSync(join(generatedStarter, file));
    expect(fresh.equals(readFileSync(join(starter, file))), file).toBe(true);
  }
});

test('the captures stay small enough for a repository', () => {
  const bytes = capturesIn(committed).reduce(
    (sum, file) => sum + readFileSync(join(committed, file)).length,
    0,
  );
  // Four megabytes for the whole journal; the captures are nearly all of it.
  expect(bytes).toBeLessThan(4e6);
});
