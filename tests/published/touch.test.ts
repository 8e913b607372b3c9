import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { fullestOfEachKind } from '../support/kinds.ts';
import { type SiteInBrowser, siteInBrowser } from '../support/visit.ts';

let site: SiteInBrowser;
beforeAll(async () => {
  site = await siteInBrowser(inject('site'));
});
afterAll(() => site.close());

/** What is pressed to go somewhere or to open something, drawn smaller than 44 px in either direction. */
const small = `[...document.querySelectorAll('nav a, .site-title, .pager a, .tags a, button, select, summary, input')]
  .filter((element) => element.checkVisibility({ contentVisibilityAuto: true }) && !element.matches('[type=checkbox], [type=radio]'))
  .flatMap((element) => {
    const { width, height } = element.getBoundingClientRect();
    const isSmall = width < 44 || height < 43.9;
    return isSmall ? [element.tagName + ' "' + element.textContent.trim() + '" ' + width + ' × ' + height] : [];
  })`;

test.each(fullestOfEachKind(inject('site')))('%s gives fingers 44 px on a phone', async (path) => {
  const { page } = await site.open(path, { viewport: { width: 390, height: 844 }, hasTouch: true });
  const pressed = await page.locator('nav a, button, select, summary').count();
  expect(pressed).toBeGreaterThan(5);
  expect(await page.evaluate(small)).toEqual([]);
  await page.context().close();
});
