import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterAll, expect, test } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'quiescent-floors-'));
copyFileSync('biome.json', join(folder, 'biome.json'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Lints a piece of code as if it stood in a file of the project, with the project's rules. */
function lint(file: string, code: string): string {
  const path = join(folder, file);
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, code);
  const args = ['lint', '--vcs-enabled=false', '--only=style/noRestrictedImports', file];
  const { stdout, stderr } = spawnSync(resolve('node_modules/.bin/biome'), args, {
    cwd: folder,
    encoding: 'utf8',
  });
  return stdout + stderr;
}

const exported = '\nexport const it = thing;\n';

test.each([
  ['src/quantity/x.ts', "import { thing } from '../capture/index.ts';"],
  ['src/capture/x.ts', "import { thing } from '../signal/index.ts';"],
  ['src/signal/x.ts', "import { thing } from '../load/index.ts';"],
  ['src/load/x.ts', "import { thing } from 'node:fs';"],
  ['src/listening/x.ts', "import { thing } from '../signal/index.ts';"],
  ['src/listening/x.ts', "import { thing } from 'node:crypto';"],
  ['src/signal/x.ts', "import { thing } from '../listening/index.ts';"],
  ['src/figures/x.ts', "import { thing } from '../journal/index.ts';"],
  ['src/figures/x.ts', "import { thing } from '../compare/index.ts';"],
  ['src/compare/x.ts', "import { thing } from '../journal/index.ts';"],
  ['src/compare/x.ts', "import { thing } from 'node:fs';"],
  ['src/charts/specs/x.ts', "import { thing } from '../../journal/index.ts';"],
  ['src/charts/x.ts', "import { thing } from 'node:crypto';"],
  ['src/charts/x.ts', "import { thing } from '../overlay/index.ts';"],
  ['src/overlay/x.ts', "import { thing } from '../journal/index.ts';"],
  ['src/overlay/x.ts', "import { thing } from 'node:fs';"],
  ['src/hearing/x.ts', "import { thing } from '../figures/index.ts';"],
  ['src/signal/x.ts', "import { thing } from '../hearing/index.ts';"],
  ['src/journal/x.ts', "import { thing } from '../charts/index.ts';"],
  ['src/journal/prose/x.ts', "import { thing } from '../../cli/run.ts';"],
  ['src/journal/x.ts', "import { thing } from 'astro:content';"],
  ['src/site/x.ts', "import { thing } from '../cli/run.ts';"],
  ['src/browser/search/x.ts', "import { thing } from '../../journal/index.ts';"],
  ['src/browser/search/x.ts', "import { thing } from 'node:fs';"],
])('%s may not have %s', (file, code) => {
  expect(lint(file, code + exported)).toMatch(/noRestrictedImports/);
});

test.each([
  ['src/capture/x.ts', "import { thing } from '../quantity/index.ts';"],
  ['src/hearing/x.ts', "import { thing } from '../signal/index.ts';"],
  ['src/journal/x.ts', "import { thing } from 'node:fs';"],
  ['src/overlay/x.ts', "import { thing } from '../charts/ticks.ts';"],
  ['src/site/x.ts', "import { thing } from '../charts/index.ts';"],
])('%s may have %s', (file, code) => {
  const report = lint(file, code + exported);
  expect(report).toMatch(/Checked 1 file/);
  expect(report).not.toMatch(/noRestrictedImports/);
});
