import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { pagesOf } from '../support/demo-site.ts';
import { accessibilityFaults, type SiteInBrowser, siteInBrowser } from '../support/visit.ts';

const site = inject('site');
const pages = pagesOf(site).map((page) => (page === '/404.html' ? '/no-such-page/' : page));
const schemes = ['light', 'dark'] as const;

let opened: SiteInBrowser;

beforeAll(async () => {
  opened = await siteInBrowser(site);
});

afterAll(() => opened.close());

const visit = (path: string, options: { width: number; colorScheme?: 'light' | 'dark' }) =>
  opened.open(path, options);

describe.each(pages)('%s in the browser', (path) => {
  test.each(schemes)(
    'has no accessibility fault, console message or outside request in %s',
    async (colorScheme) => {
      const { page, complaints, close } = await visit(path, { width: 1280, colorScheme });
      expect(await accessibilityFaults(page)).toEqual([]);
      expect(complaints).toEqual([]);
      await close();
    },
  );

  test('fits a phone without scrolling sideways, the notice in its first screen', async () => {
    const { page, close } = await visit(path, { width: 390 });
    const width = await page.evaluate('document.documentElement.scrollWidth');
    expect(width).toBeLessThanOrEqual(390);
    const notice = await page.locator('.safety-notice').boundingBox();
    expect(notice?.y).toBeLessThan(700);
    const cut = await page.evaluate(
      `[...document.querySelectorAll('caption')].filter((one) => one.getBoundingClientRect().width > innerWidth).length`,
    );
    expect(cut).toBe(0);
    await close();
  });
});

test('the policy of the page refuses inline code and inline styles', async () => {
  const { page, close } = await visit('/', { width: 1280 });
  const ran = await page.evaluate(`new Promise((resolve) => {
    const script = document.createElement('script');
    script.textContent = 'window.ran = true';
    const style = document.createElement('style');
    style.textContent = 'body { order: 7 }';
    document.body.append(script, style);
    setTimeout(() => resolve([window.ran === true, getComputedStyle(document.body).order]), 50);
  })`);
  expect(ran).toEqual([false, '0']);
  await close();
});

test('dark and light give different paper, and one drawing serves both', async () => {
  const colours = await Promise.all(
    schemes.map(async (colorScheme) => {
      const { page, close } = await visit('/amplifiers/heron/v1/', { width: 1280, colorScheme });
      const read = await page.evaluate(`[
        getComputedStyle(document.documentElement).backgroundColor,
        getComputedStyle(document.querySelector('svg.chart-drawing text')).fill,
      ]`);
      await close();
      return read as [string, string];
    }),
  );
  const [light, dark] = colours;
  expect(light?.[0]).not.toBe(dark?.[0]);
  expect(light?.[1]).not.toBe(dark?.[1]);
});
