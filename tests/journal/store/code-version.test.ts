import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, onTestFinished, test } from 'vitest';

/** A project of its own with this one's function in it, and what it says there. */
function project(): { root: string; version: () => string } {
  const root = mkdtempSync(path.join(tmpdir(), 'quiescent-code-'));
  onTestFinished(() => rmSync(root, { recursive: true, force: true }));
  const file = path.join(root, 'src/journal/store/code-version.ts');
  mkdirSync(path.dirname(file), { recursive: true });
  cpSync('src/journal/store/code-version.ts', file);
  write(root, 'src/charts/draw.ts', 'draws');
  write(root, 'src/site/page.ts', 'shows');
  write(root, 'node_modules/lines/package.json', '{ "version": "1.0.0", "dependencies": { "dots": "1" } }');
  write(root, 'node_modules/dots/package.json', '{ "version": "1.0.0", "dependencies": { "ink": "1" } }');
  write(root, 'node_modules/ink/package.json', '{ "version": "1.0.0", "dependencies": { "dots": "1" } }');
  const code = `const { codeVersion } = await import('${pathToFileURL(file).href}');
    process.stdout.write(codeVersion(['charts'], ['lines']));`;
  const version = () =>
    spawnSync(process.execPath, ['--input-type=module', '--eval', code], { encoding: 'utf8' }).stdout;
  return { root, version };
}

function write(root: string, file: string, text: string): void {
  mkdirSync(path.dirname(path.join(root, file)), { recursive: true });
  writeFileSync(path.join(root, file), text);
}

test('the version of code follows its sources, its packages and all that those bring, and nothing else', () => {
  const { root, version } = project();
  const seen = [version()];
  expect(seen[0]).toMatch(/^[0-9a-f]{64}$/);
  write(root, 'src/site/page.ts', 'shows something else');
  expect(version()).toBe(seen[0]);
  const changes = [
    ['src/charts/draw.ts', 'draws otherwise'],
    ['src/charts/deep/new.ts', 'a file more'],
    ['node_modules/lines/package.json', '{ "version": "1.0.1", "dependencies": { "dots": "1" } }'],
    ['node_modules/dots/package.json', '{ "version": "1.0.1", "dependencies": { "ink": "1" } }'],
    ['node_modules/ink/package.json', '{ "version": "1.0.1", "dependencies": { "dots": "1" } }'],
  ] as const;
  for (const [file, text] of changes) {
    write(root, file, text);
    seen.push(version());
  }
  expect(new Set(seen).size).toBe(seen.length);
});
