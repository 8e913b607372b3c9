import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { browserMissing, findBrowser } from './browser.ts';
import { serve } from './serve.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Starts the browser that the tests drive. */
export function launchBrowser(): Promise<Browser> {
  const executablePath = findBrowser();
  if (executablePath === null) throw new Error(browserMissing);
  const quiet = ['--disable-background-networking', '--disable-component-update'];
  return chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu', ...quiet] });
}

/** How a visitor looks at a page; `before` is a script that runs ahead of the page’s own. */
export type Visit = BrowserContextOptions & { width?: number; before?: string };

/** Opens a page of a served site and collects everything a visitor's console and network would show. */
export async function visitPage(
  browser: Browser,
  address: string,
  path: string,
  { width, before, ...options }: Visit,
) {
  const viewport = width === undefined ? {} : { viewport: { width, height: 900 } };
  const context = await browser.newContext({ ...options, ...viewport });
  const page = await context.newPage();
  const wanted = address + path;
  const complaints: string[] = [];
  page.on('console', (message) => {
    const isMissingPage = message.location().url === wanted && /404/.test(message.text());
    if (['error', 'warning'].includes(message.type()) && !isMissingPage) complaints.push(message.text());
  });
  page.on('pageerror', ({ message }) => complaints.push(message));
  const own = [address, `blob:${address}`, 'data:'];
  page.on('request', (request) => {
    if (!own.some((start) => request.url().startsWith(start))) complaints.push(request.url());
  });
  if (before) await page.addInitScript(before);
  await page.goto(wanted, { waitUntil: 'load' });
  return { page, complaints, close: () => context.close() };
}

/** Serves a built site and starts the browser that looks at it; every page opens in a context of its own. */
export async function siteInBrowser(site: string) {
  const browser = await launchBrowser();
  const server = await serve(site);
  return {
    address: server.address,
    open: (path: string, visit: Visit = {}) => visitPage(browser, server.address, path, visit),
    async close() {
      await browser.close();
      server.close();
    },
  };
}

export type SiteInBrowser = Awaited<ReturnType<typeof siteInBrowser>>;

/** What axe finds on a page by the WCAG 2.2 AA rules and its own list of good practice. */
export async function accessibilityFaults(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  const faults: unknown = await page.evaluate(`axe
    .run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] })
    .then(({ violations }) => violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => id + ' ' + target)))`);
  return faults as string[];
}
