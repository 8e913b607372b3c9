import { copyFileSync, existsSync, globSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, inject, test } from 'vitest';
import { quiescent } from '../support/command.ts';
import { pagesOf } from '../support/demo-site.ts';
import { serve } from '../support/serve.ts';
import { launchBrowser, visitPage } from '../support/visit.ts';

const folder = mkdtempSync(join(tmpdir(), 'quiescent-base-'));
const site = join(folder, 'bench/notes');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('a site under a sub-path finds every page, style, picture and feed entry of its own there', () => {
  const { status, stderr } = quiescent('build', '--out', site, '--base', '/bench/notes');
  expect(status, stderr).toBe(0);
  const addresses = pagesOf(site).flatMap((page) => {
    const html = readFileSync(join(site, page.endsWith('/') ? `${page}index.html` : page), 'utf8');
    return [...html.matchAll(/\s(?:href|src)="([^"#?]+)/g)].map(([, address = '']) => address);
  });
  const own = new Set(addresses.filter((address) => !/^(https?:|data:|mailto:)/.test(address)));
  expect(own.size).toBeGreaterThan(50);
  for (const address of own) {
    expect(address).toMatch(/^\/bench\/notes\//);
    const file = join(site, decodeURIComponent(address.slice('/bench/notes/'.length)));
    expect(existsSync(address.endsWith('/') ? join(file, 'index.html') : file), address).toBe(true);
  }
  const feed = readFileSync(join(site, 'feed.xml'), 'utf8').replaceAll('&quot;', '"');
  const named = [...feed.matchAll(/https:\/\/example\.org(\/[^<>"#]*)/g)].map(([, address = '']) => address);
  expect(new Set(named).size).toBeGreaterThan(20);
  for (const address of named) {
    expect(address).toMatch(/^\/bench\/notes\//);
    const file = join(site, decodeURIComponent(address.slice('/bench/notes/'.length)));
    expect(existsSync(address.endsWith('/') ? join(file, 'index.html') : file), address).toBe(true);
  }
});

test('a search under a sub-path, its headers file at the top of the host, leads to pages there, and a second build gives the same index', async () => {
  copyFileSync(join(site, '_headers'), join(folder, '_headers'));
  const [browser, server] = await Promise.all([launchBrowser(), serve(folder)]);
  const { page, complaints } = await visitPage(browser, server.address, '/bench/notes/search/?q=2A3', {
    width: 1280,
  });
  await page.locator('#search-results h2 a').first().click();
  expect(new URL(page.url()).pathname).toBe('/bench/notes/tags/2a3/');
  expect(await page.locator('h1').textContent()).toBe('2A3');
  expect(complaints).toEqual([]);
  await browser.close();
  server.close();
  const indexOf = (of: string) => globSync('search/index/**/*.pf_*', { cwd: of }).toSorted();
  expect(indexOf(site).length).toBeGreaterThan(50);
  expect(indexOf(site)).toEqual(indexOf(inject('site')));
});
