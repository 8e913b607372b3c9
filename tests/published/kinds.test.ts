import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { fullestOfEachKind, pageKinds } from '../support/kinds.ts';
import { accessibilityFaults, type SiteInBrowser, siteInBrowser } from '../support/visit.ts';

const folder = inject('site');
const pages = fullestOfEachKind(folder);

let site: SiteInBrowser;
beforeAll(async () => {
  site = await siteInBrowser(folder);
});
afterAll(() => site.close());

test('the demo site has a page of every kind', () => {
  expect(pageKinds(folder).filter((one) => one.pages.length === 0)).toEqual([]);
  expect(pages.length).toBeGreaterThan(20);
});

/** Widths of a phone, a tablet and a desk, each with both themes. */
const looks = [390, 768, 1440].flatMap((width) =>
  (['light', 'dark'] as const).map((colorScheme) => ({ width, colorScheme })),
);

const mostVisits = 4;

/** Sum of the unexpected shifts of a page that has settled. */
const shifts = `new Promise((settled) => {
  let sum = 0;
  new PerformanceObserver((list) => {
    for (const { value, hadRecentInput } of list.getEntries()) sum += hadRecentInput ? 0 : value;
  }).observe({ type: 'layout-shift', buffered: true });
  document.fonts.ready.then(() => setTimeout(() => settled(sum), 150));
})`;

/** Bands, drawings and tables that leave the screen at its right without a frame that scrolls. */
const cutOff = `[...document.querySelectorAll('main *')].filter((element) =>
  element.closest('.scroll, svg, math, pre') === null && element.checkVisibility() &&
  element.getBoundingClientRect().right > innerWidth + 1).map((element) => element.outerHTML.slice(0, 90))`;

describe.each(pages)('%s', (path) => {
  test('keeps within three widths in both themes, without a fault of accessibility or a complaint', async () => {
    const { page, complaints, close } = await site.open(path, { width: 390 });
    for (const { width, colorScheme } of looks) {
      await page.setViewportSize({ width, height: 900 });
      await page.emulateMedia({ colorScheme });
      const look = `${width} px, ${colorScheme}`;
      expect(await page.evaluate('document.documentElement.scrollWidth'), look).toBeLessThanOrEqual(width);
      expect(await page.evaluate(cutOff), look).toEqual([]);
      // Wide screens are looked at by the test of every page.
      if (width < 1000) expect(await accessibilityFaults(page), look).toEqual([]);
    }
    expect(complaints).toEqual([]);
    await close();
  });

  // A busy machine may bring one font late, so that a page has a few visits. A shift below 0.1 is held to be good (Web Vitals, from memory). What is left here is the change of a stand-in
  // for a font of the site, whose lines may break elsewhere.
  test.each([390, 1440])('hardly moves while it loads at %i px', async (width) => {
    let least = Number.POSITIVE_INFINITY;
    for (let visit = 0; visit < mostVisits && least >= 0.05; visit++) {
      const { page, close } = await site.open(path, { width });
      least = Math.min(least, Number(await page.evaluate(shifts)));
      await close();
    }
    expect(least).toBeLessThan(0.05);
  });
});
