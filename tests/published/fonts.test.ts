import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { heaviestOf } from '../budgets/page-kinds.ts';
import { pagesOf } from '../support/demo-site.ts';
import { type SiteInBrowser, siteInBrowser } from '../support/visit.ts';

const folder = inject('site');
let site: SiteInBrowser;
beforeAll(async () => {
  site = await siteInBrowser(folder);
});
afterAll(() => site.close());

const earlyLink = /<link rel="preload"[^>]*href="([^"]+\.woff2)"[^>]*>/g;

/** The longest page of each folder of pages. */
function pageOfEachFolder(): string[] {
  const byFolder = Map.groupBy(pagesOf(folder), (page) =>
    page.split('/').length < 4 ? page : page.replace(/[^/]+\/$/, '').replace(/^(\/\w+\/).+/, '$1…'),
  );
  return [...byFolder.values()].flatMap(([first]) => (first === undefined ? [] : [first]));
}

test('a page asks early for fonts that it needs anyway, and for no other', async () => {
  const pages = pageOfEachFolder();
  expect(pages.length).toBeGreaterThan(10);
  for (const path of pages) {
    const { page, close } = await site.open('/404.html');
    const [early, needed] = [new Set<string>(), new Set<string>()];
    await page.route('**/*', async (route) => {
      const { pathname } = new URL(route.request().url());
      if (pathname.endsWith('.woff2')) needed.add(pathname);
      if (route.request().resourceType() !== 'document') return route.continue();
      const response = await route.fetch();
      const html = await response.text();
      for (const [, file = ''] of html.matchAll(earlyLink)) early.add(file);
      return route.fulfill({ response, body: html.replaceAll(earlyLink, '') });
    });
    await page.goto(site.address + path, { waitUntil: 'load' });
    await page.evaluate('document.fonts.ready.then(() => true)');
    expect(early.size, path).toBeGreaterThan(1);
    expect(
      [...early].filter((file) => !needed.has(file)),
      path,
    ).toEqual([]);
    await close();
  }
});

test('every letter, number and word of a formula is drawn by the font of formulas', async () => {
  const { page, close } = await site.open(heaviestOf(folder, 'log with maths') ?? '');
  await page.evaluate('document.fonts.ready.then(() => true)');
  const session = await page.context().newCDPSession(page);
  await session.send('DOM.enable');
  await session.send('CSS.enable');
  const { root } = await session.send('DOM.getDocument', { depth: -1 });
  const selector = 'math mi, math mn, math mtext';
  const { nodeIds } = await session.send('DOM.querySelectorAll', { nodeId: root.nodeId, selector });
  expect(nodeIds.length).toBeGreaterThan(10);
  const used = new Set<string>();
  for (const nodeId of nodeIds) {
    const { fonts } = await session.send('CSS.getPlatformFontsForNode', { nodeId });
    for (const { familyName, isCustomFont } of fonts)
      used.add(isCustomFont ? familyName : `the machine's ${familyName}`);
  }
  expect([...used]).toEqual(['Noto Sans Math']);
  await close();
});

test('a root reaches over what stands under it', async () => {
  const { page, close } = await site.open(heaviestOf(folder, 'log with maths') ?? '');
  const [root, inside] = (await page.evaluate(`(() => {
    const root = document.querySelector('msqrt:has(mfrac)');
    const height = (one) => one.getBoundingClientRect().height;
    return [height(root), height(root.querySelector('mfrac'))];
  })()`)) as [number, number];
  expect(inside).toBeGreaterThan(30);
  expect(root).toBeGreaterThan(inside);
  await close();
});
