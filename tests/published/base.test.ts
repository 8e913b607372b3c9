import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { quiescent } from '../support/command.ts';
import { pagesOf } from '../support/demo-site.ts';

const folder = mkdtempSync(join(tmpdir(), 'quiescent-base-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('a site under a sub-path finds every page, style and picture of its own there', () => {
  const site = join(folder, 'site');
  const { status, stderr } = quiescent('build', '--out', site, '--base', '/bench/notes');
  expect(status, stderr).toBe(0);
  const addresses = pagesOf(site).flatMap((page) => {
    const html = readFileSync(join(site, page.endsWith('/') ? `${page}index.html` : page), 'utf8');
    return [...html.matchAll(/\s(?:href|src)="([^"#]+)/g)].map(([, address = '']) => address);
  });
  const own = new Set(addresses.filter((address) => !/^(https?:|data:|mailto:)/.test(address)));
  expect(own.size).toBeGreaterThan(50);
  for (const address of own) {
    expect(address).toMatch(/^\/bench\/notes\//);
    const file = join(site, decodeURIComponent(address.slice('/bench/notes/'.length)));
    expect(existsSync(address.endsWith('/') ? join(file, 'index.html') : file), address).toBe(true);
  }
});
