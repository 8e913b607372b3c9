import { existsSync, globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { expect, inject, test } from 'vitest';
import { pagesOf } from '../support/demo-site.ts';

const site = inject('site');
const pages = pagesOf(site).filter((page) => page !== '/404.html');
const htmlOf = (page: string) => readFileSync(join(site, page, 'index.html'), 'utf8');

/** Content of a page's meta element by its name or property. */
const meta = (html: string, name: string) =>
  new RegExp(`<meta (?:name|property)="${name}" content="([^"]*)"`).exec(html)?.[1] ?? null;

const titled = (html: string) => (/<title>([^<]*)<\/title>/.exec(html)?.[1] ?? '').replaceAll('&#39;', "'");

test('every page says in one address where it stands, and so does the sitemap, which lists nothing else', () => {
  for (const page of pages) {
    const address = `https://example.org${page}`;
    expect(htmlOf(page)).toContain(`<link rel="canonical" href="${address}">`);
    expect(meta(htmlOf(page), 'og:url')).toBe(address);
  }
  const map = readFileSync(join(site, 'sitemap-0.xml'), 'utf8');
  const listed = [...map.matchAll(/<loc>([^<]*)<\/loc>/g)].map(([, address]) => address);
  expect(listed.toSorted()).toEqual(pages.map((page) => `https://example.org${page}`).toSorted());
  expect(readFileSync(join(site, 'sitemap-index.xml'), 'utf8')).toContain(
    'https://example.org/sitemap-0.xml',
  );
});

test('the page for an address that does not exist is kept out of every index', () => {
  const html = readFileSync(join(site, '404.html'), 'utf8');
  expect(html).toContain('<meta name="robots" content="noindex">');
  expect(html).not.toMatch(/rel="canonical"|og:url/);
});

test('every page has a title and a description of its own, for previews and search results', () => {
  const described = pages.map((page) => ({ page, html: htmlOf(page) }));
  for (const { page, html } of described) {
    expect(meta(html, 'description')?.length ?? 0, page).toBeGreaterThan(10);
    expect(meta(html, 'og:description'), page).toBe(meta(html, 'description'));
    expect(titled(html), page).toContain(meta(html, 'og:title') ?? 'no title');
    expect(meta(html, 'twitter:card'), page).not.toBeNull();
  }
  const titles = described.map(({ page, html }) => ({ page, title: titled(html) }));
  const twice = titles.filter(({ title }, index) => titles.findIndex((one) => one.title === title) < index);
  expect(twice.filter(({ page }) => !/^\/logs\/[^/]+\/[^/]+\/$/.test(page))).toEqual([]);
});

test('every page that shows a chart has a picture of it, in words as well', async () => {
  const charted = pages.filter((page) => htmlOf(page).includes('class="chart-drawing"'));
  expect(charted.length).toBeGreaterThan(30);
  for (const page of charted) {
    const html = htmlOf(page);
    expect(meta(html, 'twitter:card'), page).toBe('summary_large_image');
    expect(meta(html, 'og:image'), page).toBe(`https://example.org${page}card.png`);
    expect(meta(html, 'og:image:alt')?.length ?? 0, page).toBeGreaterThan(40);
    const { format, width, height } = await sharp(join(site, page, 'card.png')).metadata();
    expect([format, `${width}`, `${height}`]).toEqual([
      'png',
      meta(html, 'og:image:width'),
      meta(html, 'og:image:height'),
    ]);
  }
});

test('no picture is made that no page names', () => {
  for (const file of globSync('**/card.png', { cwd: site })) {
    const page = join(site, file, '../index.html');
    expect(existsSync(page), file).toBe(true);
    expect(readFileSync(page, 'utf8')).toContain(`"https://example.org/${file.replaceAll('\\', '/')}"`);
  }
});

test('the picture of a page is drawn in the fonts of the site, with ink for letters and not for boxes', async () => {
  // The title of this page stands in the upper left quarter, in 42-pixel semibold letters of about a fifth ink.
  const file = join(site, 'logs/2026-03-14-does-it-hold/card.png');
  const { data, info } = await sharp(file)
    .extract({ left: 60, top: 92, width: 300, height: 52 })
    .greyscale()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const dark = data.filter((value) => value < 128).length / (info.width * info.height);
  expect(dark).toBeGreaterThan(0.08);
  expect(dark).toBeLessThan(0.3);
});
