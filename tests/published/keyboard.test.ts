import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { colourFunctions } from '../support/colours.ts';
import { fullestOfEachKind } from '../support/kinds.ts';
import { type SiteInBrowser, siteInBrowser } from '../support/visit.ts';

let site: SiteInBrowser;
beforeAll(async () => {
  site = await siteInBrowser(inject('site'));
});
afterAll(() => site.close());

/** Everything that can be operated, in the order of the page. */
const operable = `[...document.querySelectorAll('a[href], button, input, select, summary, [tabindex]')].filter((element) =>
  element.tabIndex >= 0 && !element.disabled && element.checkVisibility({ visibilityProperty: true }) &&
  (element.type !== 'radio' || element.checked))`;

/** So many steps are taken on long pages; what follows is more of the same. */
const mostSteps = 60;

/** What is wrong with how the focused element shows itself: its ring (WCAG 2.2, 2.4.13), and whether it is seen (2.4.11). */
const focusFaults = `(() => {${colourFunctions}
  const element = document.activeElement;
  const { outlineStyle, outlineWidth, outlineColor } = getComputedStyle(element);
  const [first] = element.getClientRects();
  const ring = outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2 && contrast(outlineColor, paper) >= 3;
  const seen = first && first.bottom > 0 && first.top < innerHeight && first.right > 0 && first.left < innerWidth;
  const place = ${operable}.indexOf(element);
  return { place, faults: [...(ring ? [] : ['no ring']), ...(seen ? [] : ['out of sight'])], what: element.outerHTML.slice(0, 80) };
})()`;

describe.each(fullestOfEachKind(inject('site')))('%s from the keyboard', (path) => {
  test('everything is reached in the order of the page, and shows that it is', async () => {
    const { page, close } = await site.open(path, { width: 1280 });
    const all = Number(await page.evaluate(`${operable}.length`));
    expect(all).toBeGreaterThan(10);
    expect(await page.locator('[tabindex]:not([tabindex="0"], [tabindex="-1"])').count()).toBe(0);
    for (let step = 0; step < Math.min(all, mostSteps); step++) {
      await page.keyboard.press('Tab');
      const { what, ...found } = (await page.evaluate(focusFaults)) as Record<string, unknown>;
      expect(found, String(what)).toEqual({ place: step, faults: [] });
    }
    await close();
  });

  test('the first step skips to the content, and what opens also closes', async () => {
    const { page, close } = await site.open(path, { width: 390 });
    await page.keyboard.press('Tab');
    expect(await page.locator(':focus').textContent()).toBe('Skip to the content');
    await page.keyboard.press('Enter');
    expect(new URL(page.url()).hash).toBe('#content');
    await page.keyboard.press('Tab');
    expect(await page.evaluate(`document.activeElement.closest('header') === null`)).toBe(true);
    const summary = page.locator('main summary:visible').first();
    for (const open of (await summary.count()) > 0 ? [true, false] : []) {
      await summary.press('Enter');
      expect(await page.locator('details[open]').count()).toBe(open ? 1 : 0);
    }
    await close();
  });
});
