import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  isPermissive,
  type LockedPackages,
  licenceList,
  refusedPackages,
} from '../../src/packing/licences.ts';

const jsonOf = (file: string): unknown => JSON.parse(readFileSync(file, 'utf8'));
const { packages } = jsonOf('package-lock.json') as { packages: LockedPackages };

test('every package that is installed with this one is under a permissive licence, or its exception is explained', () => {
  expect(refusedPackages(packages)).toEqual([]);
});

test('a package under another licence, or without one, is refused', () => {
  const added = {
    'node_modules/a': { version: '1.0.0', license: 'GPL-3.0-only' },
    'node_modules/b': { version: '1.0.0' },
  };
  expect(refusedPackages({ ...packages, ...added }).map(({ name }) => name)).toEqual(['a', 'b']);
});

test.each([
  ['MIT', true],
  ['(MIT OR GPL-3.0)', true],
  ['(MIT AND Zlib)', true],
  ['Apache-2.0 AND LGPL-3.0-or-later', false],
  ['SEE LICENSE IN LICENSE', false],
  ['', false],
])('of a licence with several parts each that must be kept counts: %s', (licence, is) => {
  expect(isPermissive(licence)).toBe(is);
});

test('the list of licences is that of the lock file; npm run licences writes it anew', () => {
  expect(readFileSync('shared/licences.md', 'utf8')).toBe(licenceList(packages));
});

test('what is installed states the licence that the lock file says', () => {
  const installed = Object.entries(packages).filter(
    ([path]) => path !== '' && existsSync(join(path, 'package.json')),
  );
  expect(installed.length).toBeGreaterThan(300);
  const stated = installed.map(([path]) => {
    const { license } = jsonOf(join(path, 'package.json')) as { license?: string | { type: string } };
    return [path, typeof license === 'object' ? license.type : license] as const;
  });
  const differing = stated.filter(
    ([path, license]) => license !== undefined && license !== packages[path]?.license,
  );
  expect(differing).toEqual([]);
});

describe('what runs while packages are installed', () => {
  const { allowScripts } = jsonOf('package.json') as { allowScripts: Record<string, boolean> };

  test('is only what is allowed by name, each because it is needed', () => {
    const running = Object.entries(packages)
      .filter(([, { hasInstallScript = false }]) => hasInstallScript)
      .map(([path]) => path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length));
    expect(new Set(running)).toEqual(new Set(Object.keys(allowScripts).filter((name) => allowScripts[name])));
  });

  test('this package itself runs nothing when it is installed', () => {
    const { scripts } = jsonOf('package.json') as { scripts: Record<string, string> };
    expect(Object.keys(scripts).filter((name) => /^(pre|post)?install$|^prepare$/.test(name))).toEqual([]);
  });
});
