import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';

const root = join(import.meta.dirname, '../..');
const committed = join(root, 'content');
let generated = '';

const capturesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((file) => file.replaceAll('\\', '/'))
    .filter((file) => file.endsWith('.csv') && !file.startsWith('.'))
    .sort();

beforeAll(() => {
  generated = mkdtempSync(join(tmpdir(), 'demo-captures-'));
  execFileSync(process.execPath, [join(root, 'src/demo/generate.ts'), generated]);
});

afterAll(() => rmSync(generated, { recursive: true }));

test('the generator writes exactly the captures that the demo journal holds', () => {
  expect(capturesIn(generated)).toEqual(capturesIn(committed));
});

test.each(capturesIn(committed))('%s comes out of the generator byte for byte', (file) => {
  const fresh = readFileSync(join(generated, file));
  expect(fresh.equals(readFileSync(join(committed, file)))).toBe(true);
});

test('the captures stay small enough for a repository', () => {
  const bytes = capturesIn(committed).reduce(
    (sum, file) => sum + readFileSync(join(committed, file)).length,
    0,
  );
  // Four megabytes for the whole journal; the captures are nearly all of it.
  expect(bytes).toBeLessThan(4e6);
});
