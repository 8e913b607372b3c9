import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { type SiteInBrowser, siteInBrowser } from '../support/visit.ts';

const log = 'logs/2026-10-03-four-wrens/';

let site: SiteInBrowser;
beforeAll(async () => {
  site = await siteInBrowser(inject('site'));
});
afterAll(() => site.close());

/** Natural and drawn size of the page's picture, and the file that the browser took. */
async function taken(width: number) {
  const { page, complaints } = await site.open(`/${log}`, { viewport: { width, height: 900 } });
  const picture = page.locator('.picture img');
  const { x = 0, width: drawn = 0 } = (await picture.boundingBox()) ?? {};
  const chosen = await picture.evaluate((img: HTMLImageElement) => ({
    file: img.currentSrc,
    srcset: img.srcset,
  }));
  expect(complaints).toEqual([]);
  await page.context().close();
  const entry = chosen.srcset.split(', ').find((one) => chosen.file.endsWith(one.split(' ')[0] ?? 'none'));
  return { right: x + drawn, drawn, file: chosen.file, fileWidth: Number(/ (\d+)w$/.exec(entry ?? '')?.[1]) };
}

test('a phone and a desk each take a file of about the size that is drawn, in a modern format', async () => {
  for (const width of [390, 1440]) {
    const { right, drawn, file, fileWidth } = await taken(width);
    expect(right).toBeLessThanOrEqual(width);
    expect(file).toMatch(/\.webp$/);
    expect(fileWidth).toBeGreaterThanOrEqual(Math.floor(drawn));
    // The smallest file made is 640 wide; the next ones are at most a third wider than the one before.
    expect(fileWidth).toBeLessThanOrEqual(Math.max(640, 1.34 * drawn));
  }
});

test('a picture has its text and its caption, and its place before it is loaded', async () => {
  const { page } = await site.open(`/${log}`);
  const picture = page.locator('figure.picture');
  expect(await picture.locator('figcaption').textContent()).toContain('W2-04 from below');
  const img = picture.locator('img');
  expect(await img.getAttribute('alt')).toContain('heater wires');
  expect(Number(await img.getAttribute('width')) / Number(await img.getAttribute('height'))).toBeCloseTo(
    1800 / 1015,
    3,
  );
  await page.context().close();
});
