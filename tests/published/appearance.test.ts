import type { BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { type SiteInBrowser, siteInBrowser } from '../support/visit.ts';

const page1 = 'amplifiers/heron/v1/';
const [light, dark] = ['rgb(251, 250, 246)', 'rgb(22, 24, 26)'];

let site: SiteInBrowser;
beforeAll(async () => {
  site = await siteInBrowser(inject('site'));
});
afterAll(() => site.close());

const opened = async (options: BrowserContextOptions & { before?: string }, path = page1) =>
  (await site.open(`/${path}`, options)).page;
const paperOf = (page: Page) => page.evaluate('getComputedStyle(document.documentElement).backgroundColor');
const inkOfChart = (page: Page) =>
  page.evaluate(`getComputedStyle(document.querySelector('svg.chart-drawing text')).fill`);
const choose = (page: Page, choice: string) => page.getByLabel('Colours').selectOption(choice);

test('the system decides until a choice is made, and again after it is taken back', async () => {
  const page = await opened({ colorScheme: 'dark' });
  expect(await page.getByLabel('Colours').inputValue()).toBe('system');
  expect(await paperOf(page)).toBe(dark);
  await choose(page, 'light');
  expect(await paperOf(page)).toBe(light);
  await choose(page, 'system');
  expect(await paperOf(page)).toBe(dark);
  await page.context().close();
});

test('a choice holds on every page and in other tabs, with its charts', async () => {
  const page = await opened({ colorScheme: 'light' });
  const other = await page.context().newPage();
  await other.goto(page.url());
  const ink = await inkOfChart(page);
  await choose(page, 'dark');
  expect(await inkOfChart(page)).not.toBe(ink);
  await other.waitForFunction(`document.documentElement.dataset.appearance === 'dark'`);
  expect(await other.getByLabel('Colours').inputValue()).toBe('dark');
  await page.goto(`${site.address}/methods/`);
  expect(await paperOf(page)).toBe(dark);
  expect(await page.getByLabel('Colours').inputValue()).toBe('dark');
  await page.context().close();
});

test('a remembered choice stands before anything is painted', async () => {
  const before = `localStorage.setItem('quiescent-appearance', 'dark');
    new MutationObserver((_, watching) => {
      if (!document.body) return;
      window.whenBodyCame = document.documentElement.dataset.appearance;
      watching.disconnect();
    }).observe(document, { childList: true, subtree: true });`;
  const page = await opened({ colorScheme: 'light', before });
  expect(await page.evaluate('window.whenBodyCame')).toBe('dark');
  await page.context().close();
});

test('where nothing may be stored the choice holds for the page', async () => {
  const before = `Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } });`;
  const { page, complaints } = await site.open(`/${page1}`, { colorScheme: 'light', before });
  await choose(page, 'dark');
  expect(await paperOf(page)).toBe(dark);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('without scripts there is no switch, and the system decides', async () => {
  const page = await opened({ colorScheme: 'dark', javaScriptEnabled: false });
  expect(await page.locator('.appearance').isVisible()).toBe(false);
  expect(await paperOf(page)).toBe(dark);
  await page.context().close();
});

test('dark pages print on white paper', async () => {
  const page = await opened({ colorScheme: 'dark' });
  await choose(page, 'dark');
  await page.emulateMedia({ media: 'print' });
  expect(await paperOf(page)).toBe('rgb(255, 255, 255)');
  await page.context().close();
});
