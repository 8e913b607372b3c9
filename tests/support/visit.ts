import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type Browser, chromium, type Page } from 'playwright-core';
import { browserMissing, findBrowser } from './browser.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Starts the browser that the tests drive. */
export function launchBrowser(): Promise<Browser> {
  const executablePath = findBrowser();
  if (executablePath === null) throw new Error(browserMissing);
  const quiet = ['--disable-background-networking', '--disable-component-update'];
  return chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu', ...quiet] });
}

interface Visit {
  width: number;
  colorScheme?: 'light' | 'dark';
  javaScriptEnabled?: boolean;
}

/** Opens a page of a served site and collects everything a visitor's console and network would show. */
export async function visitPage(
  browser: Browser,
  address: string,
  path: string,
  { width, colorScheme = 'light', javaScriptEnabled = true }: Visit,
) {
  const viewport = { width, height: 900 };
  const context = await browser.newContext({ viewport, colorScheme, javaScriptEnabled });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type()) && !/404/.test(message.text()))
      complaints.push(message.text());
  });
  page.on('request', (request) => {
    if (!request.url().startsWith(address) && !request.url().startsWith('data:'))
      complaints.push(request.url());
  });
  await page.goto(address + path, { waitUntil: 'load' });
  return { page, complaints, close: () => context.close() };
}

/** What axe finds on a page by the WCAG 2.2 AA rules and its own list of good practice. */
export async function accessibilityFaults(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  const faults: unknown = await page.evaluate(`axe
    .run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] })
    .then(({ violations }) => violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => id + ' ' + target)))`);
  return faults as string[];
}
