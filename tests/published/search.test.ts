import { globSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { pageEntries, textEntries } from '../../src/site/search-entries.ts';
import { searchKinds } from '../../src/site/search-kinds.ts';
import { demoJournal } from '../support/demo-journal.ts';
import { pagesOf } from '../support/demo-site.ts';
import { accessibilityFaults, type SiteInBrowser, siteInBrowser, type Visit } from '../support/visit.ts';

const site = inject('site');
const journal = await demoJournal();
const htmlOf = (page: string) => readFileSync(join(site, page, 'index.html'), 'utf8');

let opened: SiteInBrowser;

beforeAll(async () => {
  opened = await siteInBrowser(site);
});

afterAll(() => opened.close());

/** Opens the search page; `shown` waits until it says something that fits. */
async function search(query = '', options: Visit = {}) {
  const visited = await opened.open(`/search/${query}`, { width: 1280, ...options });
  const shown = (says: RegExp) =>
    visited.page.getByRole('status').filter({ hasText: says }).waitFor({ timeout: 20_000 });
  return { ...visited, shown };
}

/** What is listed: kind, title and address of each result. */
async function resultsOf(page: Page): Promise<{ kind: string; title: string; address: string }[]> {
  const read: unknown =
    await page.evaluate(`[...document.querySelectorAll('#search-results > li')].map((item) => ({
    kind: item.querySelector('.kicker').textContent.split(' · ')[0],
    title: item.querySelector('h2').textContent,
    address: item.querySelector('h2 a').getAttribute('href'),
  }))`);
  return read as { kind: string; title: string; address: string }[];
}

describe('every page but lists of records can be found', () => {
  const lists =
    /^\/(404\.html|(logs|amplifiers|parts|comparisons|decisions|listening|pages|expectations|overlay|search|tags|methods)\/|tags\/.+)?$/;

  test('as what it is', () => {
    const found = pageEntries(journal).map(({ page }) => `/${page}/`);
    expect(found.toSorted()).toEqual(pagesOf(site).filter((page) => !lists.test(page)));
  });

  test('tags and sections of the methods page by texts of their own', () => {
    const addresses = textEntries(journal).map(({ address }) => address);
    const tags = pagesOf(site).filter((page) => /^\/tags\/./.test(page));
    const sections = [...htmlOf('methods').matchAll(/<h2 id="([^"]+)"/g)].map(([, id]) => `/methods/#${id}`);
    expect(sections.length).toBeGreaterThan(30);
    expect(addresses.toSorted()).toEqual([...sections, ...tags].toSorted());
  });
});

test.each([
  ['a tube type', '2A3', 'Tag', '2A3', '/tags/2a3/'],
  ['a log by a heading in it', 'eighty milliamperes', 'Log', /./, /^\/logs\/[^/]+\/$/],
  [
    'a part by its name',
    "Heron's output transformer",
    'Part',
    "Heron's output transformer",
    '/parts/heron-output/',
  ],
  [
    'a page of the maker by words in it',
    'perforated metal',
    'Page',
    'How this bench measures',
    '/pages/how-we-measure/',
  ],
  ['a version by its name', 'Heron 2', 'Version', 'Heron 2', '/amplifiers/heron/v2/'],
  ['a figure by its name', 'damping factor', 'Capture', /Output impedance/, /^\/logs\//],
  [
    'a method by a figure that it explains',
    'damping factor',
    'Method',
    /damping factor/,
    '/methods/#output-impedance',
  ],
  ['a decision by its question', 'cathode follower driver', 'Decision', /follower/, /^\/decisions\/0004/],
  ['what the safety page says', 'isolating transformer chassis', 'Safety', /Before you open/, '/safety/'],
])('%s is found: %s', async (_what, text, kind, title, address) => {
  const { page, complaints, shown, close } = await search();
  await page.getByRole('searchbox').fill(text);
  await shown(/^\d+ results? for/);
  const exact = (wanted: string | RegExp) =>
    typeof wanted === 'string' ? wanted : expect.stringMatching(wanted);
  expect(await resultsOf(page)).toContainEqual({ kind, title: exact(title), address: exact(address) });
  expect(complaints).toEqual([]);
  await close();
});

const oneOfEachKind = Map.groupBy(pageEntries(journal), ({ kind }) => kind);

test.each([...oneOfEachKind])(
  'a record of kind %s is found by its title, and says what it is',
  async (kind, entries) => {
    const [{ page: path } = { page: '' }] = entries;
    const { page, complaints, shown, close } = await search();
    await page.goto(`${opened.address}/${path}/`);
    const title = (await page.locator('h1').textContent()) ?? '';
    await page.goto(`${opened.address}/search/?${new URLSearchParams({ q: title, kind })}`);
    await shown(/: \d+ of \d+ results? for/);
    const name = searchKinds[kind].one;
    expect(await resultsOf(page)).toContainEqual({ kind: name, title, address: `/${path}/` });
    expect(complaints).toEqual([]);
    await close();
  },
);

test('results say their kinds with counts, and one kind can be looked at alone, which the address keeps', async () => {
  const { page, shown, close } = await search('?q=2A3');
  await shown(/^\d+ results for “2A3”/);
  const captures = page.getByRole('radio', { name: /^Captures \d+$/ });
  await captures.check();
  await shown(/^Captures: \d+ of \d+ results/);
  expect(new Set((await resultsOf(page)).map(({ kind }) => kind))).toEqual(new Set(['Capture']));
  expect(new URL(page.url()).search).toBe('?q=2A3&kind=capture');
  await page.reload();
  await shown(/^Captures: \d+ of \d+ results/);
  expect(await captures.isChecked()).toBe(true);
  await close();
});

test('everything is reached from the keyboard: the field, the kinds, the results and the rest of them', async () => {
  const { page, shown, close } = await search();
  await page.getByRole('searchbox').focus();
  await page.keyboard.type('output');
  await page.keyboard.press('Enter');
  await shown(/^\d+ results/);
  expect(await resultsOf(page)).toHaveLength(10);
  const focused = () => page.evaluate('document.activeElement.textContent || document.activeElement.id');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowDown');
  expect(await focused()).toBe((await resultsOf(page))[1]?.title);
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('ArrowUp');
  expect(await focused()).toBe('search-text');
  await page.getByRole('button', { name: 'More results' }).focus();
  await page.keyboard.press('Enter');
  await page.locator('#search-results > li:nth-child(11) a:focus').waitFor();
  await close();
});

test.each(['xylophone', 'EL84', '300B&kind=log'])(
  'what stands nowhere is not found, nor what only begins like it: %s',
  async (asked) => {
    const { page, shown, close } = await search(`?q=${asked}`);
    await shown(/^Nothing has all of the words/);
    expect(await resultsOf(page)).toEqual([]);
    expect(await page.getByRole('radio').first().isVisible()).toBe(false);
    await close();
  },
);

test.each([
  ['light', 1280],
  ['dark', 1280],
  ['light', 390],
] as const)('results are accessible and fit in %s at %d px', async (colorScheme, width) => {
  const { page, shown, close } = await search('?q=transformer', { colorScheme, width });
  await shown(/^\d+ results/);
  expect(await accessibilityFaults(page)).toEqual([]);
  expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
  await close();
});

test('without JavaScript the page names the lists of records and shows no field', async () => {
  const { page, close } = await search('', { javaScriptEnabled: false });
  expect(await page.locator('noscript p').isVisible()).toBe(true);
  expect(await page.getByRole('searchbox').isVisible()).toBe(false);
  expect(await page.getByRole('main').getByRole('link', { name: 'Parts', exact: true }).isVisible()).toBe(
    true,
  );
  await close();
});

test('where the index is missing, the page says so and names the lists', async () => {
  const { page, shown, close } = await search();
  await page.route('**/search/index/**', (route) => route.abort());
  await page.reload();
  await shown(/^The index of this site cannot be loaded\. .* lists below lead to every record\.$/);
  await close();
});

test('every page leads to the search, which alone may run compiled code and loads its script', () => {
  const script = /<script type="module" src="([^"]+)"/.exec(htmlOf('/search/'))?.[1] ?? 'no script';
  for (const page of pagesOf(site).filter((one) => one.endsWith('/'))) {
    const html = htmlOf(page);
    expect(html, page).toContain('href="/search/"');
    expect(html.includes("'wasm-unsafe-eval'"), page).toBe(page === '/search/');
    expect(html.includes(script), page).toBe(page === '/search/');
  }
});

test('the index weighs at most 12 kB a page, and a first search at most 200 kB', () => {
  const sizes = globSync('search/index/**', { cwd: site, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => ({ name, size: statSync(join(parentPath, name)).size }));
  const sum = (pattern: RegExp) =>
    sizes.filter(({ name }) => pattern.test(name)).reduce((all, { size }) => all + size, 0);
  const largest = Math.max(...sizes.filter(({ name }) => /pf_index$/.test(name)).map(({ size }) => size));
  expect(sum(/./) / pagesOf(site).length).toBeLessThan(12_000);
  expect(sum(/\.js$|entry\.json$|^wasm|pf_meta$|pf_filter$/) + largest).toBeLessThan(200_000);
});
