import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { type SiteInBrowser, siteInBrowser } from '../support/visit.ts';

/** Width and height in points (72 to the inch), and the width between the margins of 14 mm in CSS pixels. */
const papers = [
  { format: 'A4', points: [595, 842], textPx: ((210 - 28) / 25.4) * 96 },
  { format: 'Letter', points: [612, 792], textPx: ((215.9 - 28) / 25.4) * 96 },
] as const;

/** Pages that are taken to the bench, and how many sheets they may take. */
const sheets = [
  { name: 'a version with its load sheet', path: 'amplifiers/heron/v1/', most: 20 },
  { name: 'a version with an output stage of transistors', path: 'amplifiers/slate/v2/', most: 14 },
  { name: 'a version with the spread of its units', path: 'amplifiers/wren/v2/', most: 20 },
  { name: 'a unit', path: 'amplifiers/wren/units/w2-03/', most: 1 },
  { name: 'a decision', path: 'decisions/0001-driver-of-heron/', most: 4 },
] as const;

let site: SiteInBrowser;
beforeAll(async () => {
  site = await siteInBrowser(inject('site'));
});
afterAll(() => site.close());

/** Everything drawn that reaches beyond the right edge, or is cut off within a frame that scrolls on screens. */
const cutOff = `[...document.querySelectorAll('body *')].filter((element) => {
  const { width, right } = element.getBoundingClientRect();
  const isHidden = width === 0 || element.closest('svg, math, .skip') !== null && !element.matches('svg');
  return !isHidden && right > document.documentElement.clientWidth + 1;
}).map((element) => element.tagName + ' ' + element.className)`;

describe.each(sheets)('$name on paper', ({ path, most }) => {
  test.each(papers)(
    'fits $format from edge to edge and in its number of sheets',
    async ({ format, points: [width, height], textPx }) => {
      const { page } = await site.open(`/${path}`);
      const pdf = (await page.pdf({ format })).toString('latin1');
      const box = /\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf);
      // The browser rounds a page to whole CSS pixels, of 0.75 points.
      expect(Math.abs(Number(box?.[1]) - width)).toBeLessThan(1.5);
      expect(Math.abs(Number(box?.[2]) - height)).toBeLessThan(1.5);
      expect(pdf.match(/\/Type\s*\/Page[^s]/g)?.length).toBeLessThanOrEqual(most);
      await page.setViewportSize({ width: Math.floor(textPx), height: 1000 });
      await page.emulateMedia({ media: 'print' });
      expect(await page.evaluate(cutOff)).toEqual([]);
      await page.context().close();
    },
  );

  test('carries the safety notice and the address of the page, and nothing to press', async () => {
    const { page } = await site.open(`/${path}`);
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.safety-notice').isVisible()).toBe(true);
    expect(await page.locator('.safety-notice svg').isVisible()).toBe(true);
    expect(await page.locator('.printed-address').textContent()).toMatch(new RegExp(`/${path}$`));
    for (const pressed of await page.locator('button, select, input, summary').all()) {
      expect(await pressed.isVisible()).toBe(false);
    }
    await page.context().close();
  });
});
