import type { BrowserContextOptions, Page } from 'playwright-core';
import { serve } from './serve.ts';
import { launchBrowser } from './visit.ts';

/** A built site in a browser of its own. */
export interface SiteInBrowser {
  address: string;
  /** A page with what its console complained of; each in a context of its own. */
  open(path: string, options?: BrowserContextOptions & { before?: string }): Promise<OpenPage>;
  close(): Promise<void>;
}

export interface OpenPage {
  page: Page;
  complaints: string[];
}

/** Serves a built site and starts the browser that looks at it. */
export async function siteInBrowser(site: string): Promise<SiteInBrowser> {
  const browser = await launchBrowser();
  const server = await serve(site);
  return {
    address: server.address,
    async open(path, { before, ...options } = {}) {
      const context = await browser.newContext(options);
      const page = await context.newPage();
      const complaints: string[] = [];
      page.on('console', (message) => {
        if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
      });
      page.on('pageerror', ({ message }) => complaints.push(message));
      if (before) await page.addInitScript(before);
      await page.goto(`${server.address}/${path}`, { waitUntil: 'load' });
      return { page, complaints };
    },
    async close() {
      await browser.close();
      server.close();
    },
  };
}
