import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { colourFunctions } from '../support/colours.ts';
import { fullestOfEachKind } from '../support/kinds.ts';
import { type SiteInBrowser, siteInBrowser } from '../support/visit.ts';

const pages = fullestOfEachKind(inject('site'));

let site: SiteInBrowser;
beforeAll(async () => {
  site = await siteInBrowser(inject('site'));
});
afterAll(() => site.close());

/** What is drawn too faintly on imposed colours: text wants 4.5 to 1, lines and marks 3 to 1 (WCAG 2.2, 1.4.3 and 1.4.11). */
const faint = `(() => {${colourFunctions}
  const shown = (selector) => [...document.querySelectorAll(selector)].filter((one) => one.checkVisibility());
  const below = (least, kind, read) => (element) => {
    const colour = read(getComputedStyle(element));
    return colour.startsWith('rgb') && contrast(colour, paper) < least ? [kind + ' ' + colour + ' on ' + paper] : [];
  };
  return [...new Set([
    ...shown('main :is(h1, h2, p, li, td, th, a, summary, button)').flatMap(below(4.5, 'text', (style) => style.color)),
    ...shown('svg.chart-drawing text').filter((text) => text.closest('[fill*="--chart-paper"]') === null).flatMap(below(4.5, 'label', (style) => style.fill)),
    ...shown('svg.chart-drawing path[stroke*="--chart-data"], svg.chart-drawing path[stroke*="--chart-ink"]').flatMap(below(3, 'line', (style) => style.stroke)),
    ...shown('svg.mark').flatMap(below(3, 'mark', (style) => style.color)),
  ])];
})()`;

/** What moves by itself or glides where a reader has asked that nothing does. */
const moving = `[...document.querySelectorAll('*')].filter((element) => {
  const { transitionDuration, animationName, scrollBehavior } = getComputedStyle(element);
  return !/^0s(, 0s)*$/.test(transitionDuration) || animationName !== 'none' || scrollBehavior === 'smooth';
}).map(({ tagName, className }) => tagName + ' ' + className)`;

/** What is shown although it needs a script, and links that lead to something that is not shown. */
const idle = `[...document.querySelectorAll('.needs-script, button, select, input, output, a[href^="#"]')]
  .filter((element) => element.checkVisibility())
  .filter((element) => !element.hash || !document.getElementById(element.hash.slice(1))?.checkVisibility())
  .map(({ outerHTML }) => outerHTML.slice(0, 90))`;

/** Charts that have no drawing to be seen, or neither a table of their numbers nor a sentence on why there is none. */
const missing = `[...document.querySelectorAll('figure.chart')].filter((figure) => figure.checkVisibility())
  .filter((figure) => {
    const drawn = [...figure.querySelectorAll('svg')].filter((svg) => svg.checkVisibility());
    const answered = figure.querySelector('.chart-title')?.textContent.length > 5;
    return !answered || (figure.querySelector('svg') !== null && (drawn.length !== 1 || !figure.querySelector('td')));
  }).map(({ textContent }) => textContent.slice(0, 90))`;

describe.each(pages)('%s', (path) => {
  test('stays legible in colours that the system imposes, and still where no motion is wanted', async () => {
    const { page, complaints, close } = await site.open(path, { width: 1280 });
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ forcedColors: 'active', colorScheme, reducedMotion: 'reduce' });
      expect(await page.evaluate(faint), colorScheme).toEqual([]);
    }
    await page.evaluate(`document.querySelectorAll('details').forEach((one) => { one.open = true; })`);
    expect(await page.evaluate(moving)).toEqual([]);
    expect(await page.evaluate('document.getAnimations().length')).toBe(0);
    expect(complaints).toEqual([]);
    await close();
  });

  test('is whole without scripts, and shows nothing that needs one', async () => {
    const { page, close } = await site.open(path, { width: 1280, javaScriptEnabled: false });
    expect(await page.evaluate('document.documentElement.dataset.appearance ?? null')).toBeNull();
    expect(await page.evaluate(idle)).toEqual([]);
    expect(await page.evaluate(missing)).toEqual([]);
    expect(await page.locator('main').textContent()).toMatch(/\w+(\W+\w+){20}/);
    await close();
  });
});

test('a pressed button stands out in imposed colours', async () => {
  const path = pages.find((page) => /^\/logs\/[^/]+\/[^/]+\/$/.test(page)) ?? '';
  const { page, close } = await site.open(path, { width: 1280 });
  await page.emulateMedia({ forcedColors: 'active' });
  const button = `document.querySelector('.hearing button[aria-pressed]')`;
  const paper = () => page.evaluate(`getComputedStyle(${button}).backgroundColor`);
  const before = await paper();
  await page.evaluate(`${button}.setAttribute('aria-pressed', 'true')`);
  expect(before).toMatch(/^rgb/);
  expect(await paper()).not.toBe(before);
  await close();
});
