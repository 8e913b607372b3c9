import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { plainEnvironment } from '../support/command.ts';
import { launchBrowser, visitPage } from '../support/visit.ts';

const folder = mkdtempSync(join(tmpdir(), 'quiescent-dev-'));
const log = join(folder, 'logs/2026-01-18-first-sound');
let server: ChildProcess;
let address: string;
let printed = '';

beforeAll(async () => {
  cpSync('content', folder, { recursive: true, filter: (source) => !source.includes('.quiescent') });
  const port = await freePort();
  address = `http://127.0.0.1:${port}/logs/2026-01-18-first-sound/`;
  const args = ['src/cli/main.ts', 'dev', '--journal', folder, '--port', String(port)];
  server = spawn(process.execPath, args, { env: plainEnvironment() });
  server.stderr?.on('data', (data) => {
    printed += String(data);
  });
  await page('', (html) => html.includes('First sound'));
});

afterAll(() => {
  server.kill();
  rmSync(folder, { recursive: true, force: true });
});

/** A page once it satisfies a condition; the last state seen where it never does. */
async function page(path: string, until: (html: string) => boolean): Promise<string> {
  let html = '';
  for (let tries = 0; tries < 150 && !until(html); tries++) {
    html = await fetch(address + path).then(
      (response) => response.text(),
      () => '',
    );
    if (!until(html)) await new Promise((resolve) => setTimeout(resolve, 100));
  }
  return html;
}

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const found = probe.address();
      probe.close(() => resolve(typeof found === 'object' && found ? found.port : 0));
    });
  });
}

function edit(file: string, change: (text: string) => string): void {
  const path = join(log, file);
  writeFileSync(path, change(readFileSync(path, 'latin1')), 'latin1');
}

test('a page of the live site is dressed, and its browser has nothing to complain of', async () => {
  const browser = await launchBrowser();
  const { page: live, complaints } = await visitPage(
    browser,
    new URL(address).origin,
    new URL(address).pathname,
    {
      width: 1440,
    },
  );
  const family = await live.evaluate(
    () => getComputedStyle(document.querySelector('h1') as Element).fontFamily,
  );
  await browser.close();
  expect(complaints).toEqual([]);
  expect(family).toContain('Source Serif');
});

test('the live site follows an edited log', async () => {
  edit('index.md', (text) => text.replace('title: First sound', 'title: Second sound'));
  expect(await page('', (html) => html.includes('Second sound'))).toContain('<h1>Second sound</h1>');
});

test('the live site follows an edited capture', async () => {
  const path = 'heron-v1-response-1w/';
  expect(await page(path, (html) => html.includes('76 rows'))).toContain('76 rows');
  edit('heron-v1-response-1w.csv', (text) => text.trimEnd().split('\n').slice(0, -4).join('\n'));
  expect(await page(path, (html) => html.includes('72 rows'))).toContain('72 rows');
});

test('with an error the last good page stays, and the terminal says what is wrong', async () => {
  edit('index.md', (text) => text.replace('date: 2026-01-18', 'date: 2026-13-18'));
  const until = Date.now() + 10_000;
  while (!printed.includes('is not a date') && Date.now() < until)
    await new Promise((resolve) => setTimeout(resolve, 50));
  expect(printed).toMatch(/index\.md\n {2}3:7 {2}error {2}"2026-13-18" is not a date\./);
  expect(await page('', (html) => html.includes('Second sound'))).toContain('Second sound');
});
