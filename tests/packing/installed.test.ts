import { execFileSync, spawn, spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { plainEnvironment, quiescent } from '../support/command.ts';

/** A newcomer's empty folder, with nothing of the checkout in reach. */
let folder = '';

/** The environment of a shell that knows neither the checkout's programs nor the npm that runs these tests. */
function newcomer(): NodeJS.ProcessEnv {
  const { INIT_CWD: _folder, NODE: _node, NODE_PATH: _modules, ...env } = plainEnvironment();
  const own = Object.entries(env).filter(([name]) => !/^npm_/i.test(name));
  const paths = (env['PATH'] ?? '').split(path.delimiter).filter((entry) => !entry.includes('node_modules'));
  return { ...Object.fromEntries(own), PATH: paths.join(path.delimiter) };
}

const npx = (...args: string[]) =>
  spawnSync('npx', ['--no-install', 'quiescent', ...args], {
    cwd: folder,
    encoding: 'utf8',
    env: newcomer(),
  });

beforeAll(() => {
  folder = realpathSync(mkdtempSync(path.join(tmpdir(), 'quiescent-installed-')));
  const quiet = ['--silent', '--no-audit', '--no-fund'];
  execFileSync('npm', ['pack', '--silent', '--pack-destination', folder], { env: newcomer() });
  const tarball = readdirSync(folder).find((name) => name.endsWith('.tgz')) ?? '';
  execFileSync('npm', ['install', ...quiet, '--prefer-offline', `./${tarball}`], {
    cwd: folder,
    env: newcomer(),
  });
}, 400_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the package, installed in an empty folder', () => {
  test('holds no TypeScript, no tests and no demo journal', () => {
    const lib = path.join(folder, 'node_modules/quiescent');
    const files = readdirSync(lib, { recursive: true, encoding: 'utf8' }).map((name) =>
      name.replaceAll('\\', '/'),
    );
    expect(files.length).toBeGreaterThan(400);
    expect(files.filter((name) => /\.ts$|^tests|^content|\/demo\/|\/packing\//.test(name))).toEqual([]);
    expect(files).toContain('lib/shared/schemas/records/log.schema.json');
  });

  test('begins a journal that has no problems', () => {
    expect(npx('init', 'my-journal')).toMatchObject({
      status: 0,
      stderr: expect.stringContaining('can kill'),
    });
    const checked = npx('check', '--journal', 'my-journal');
    expect(checked).toMatchObject({ status: 0, stderr: 'my-journal: No problems.\n' });
  });

  test('builds its site, with a page for every record', () => {
    const { status, stderr } = npx('build', '--journal', 'my-journal', '--out', 'site');
    expect(stderr).toContain('No problems. The site is in site.');
    expect(status).toBe(0);
    for (const page of [
      'index.html',
      'amplifiers/robin/index.html',
      'amplifiers/robin/v2/index.html',
      'amplifiers/robin/units/r2-01/index.html',
      'parts/robin-output/index.html',
      'decisions/0001-feedback/index.html',
      'comparisons/feedback/index.html',
      'listening/2026-02-22-feedback-sighted/index.html',
      'logs/2026-02-14-a-little-feedback/index.html',
    ]) {
      const html = readFileSync(path.join(folder, 'site', page), 'utf8');
      expect(html, page).toContain('can kill');
      const style = /<link rel="stylesheet" href="\/(assets\/[^"]+)"/.exec(html)?.[1] ?? 'none';
      expect(existsSync(path.join(folder, 'site', style)), style).toBe(true);
    }
    const log = readFileSync(path.join(folder, 'site/logs/2026-02-14-a-little-feedback/index.html'), 'utf8');
    expect(log).toContain('<svg');
  });

  test('builds the same site as the checkout, byte for byte', () => {
    const args = ['--journal', path.join(folder, 'my-journal'), '--out', path.join(folder, 'other')];
    expect(quiescent('build', ...args).status).toBe(0);
    const files = filesBelow(path.join(folder, 'site'));
    expect(filesBelow(path.join(folder, 'other'))).toEqual(files);
    const read = (site: string, file: string) => readFileSync(path.join(folder, site, file));
    expect(files.filter((file) => !read('site', file).equals(read('other', file)))).toEqual([]);
  });

  test('shows a live site that follows the files', async () => {
    const port = 4700 + (process.pid % 200);
    const bin = path.join(folder, 'node_modules/.bin/quiescent');
    const args = ['dev', '--journal', 'my-journal', '--port', String(port)];
    const env = newcomer();
    env['PATH'] = `${path.join(folder, 'node_modules/.bin')}${path.delimiter}${env['PATH']}`;
    const server = spawn(bin, args, { cwd: folder, env, stdio: 'ignore' });
    try {
      await until(port, 'My bench');
      const settings = path.join(folder, 'my-journal/journal.yaml');
      writeFileSync(settings, readFileSync(settings, 'utf8').replace('title: My bench', 'title: Our bench'));
      await until(port, 'Our bench');
    } finally {
      server.kill('SIGINT');
    }
  });
});

const filesBelow = (site: string) =>
  readdirSync(site, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(site, path.join(entry.parentPath, entry.name)))
    .sort();

/** Waits until the live site's first page holds a text; the test's own limit of time ends it otherwise. */
async function until(port: number, text: string): Promise<void> {
  const page = await fetch(`http://127.0.0.1:${port}/`).then(
    (answer) => answer.text(),
    () => '',
  );
  if (page.includes(text)) return;
  await new Promise((resolve) => setTimeout(resolve, 200));
  await until(port, text);
}
