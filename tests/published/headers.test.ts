import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { pagesOf } from '../support/demo-site.ts';
import { type SiteInBrowser, siteInBrowser } from '../support/visit.ts';

let site: SiteInBrowser;
beforeAll(async () => {
  site = await siteInBrowser(inject('site'));
});
afterAll(() => site.close());

test('every page is sent with its policy, and only the search may run compiled code', async () => {
  for (const path of [...pagesOf(inject('site')), '/no-such-page/']) {
    const { headers } = await fetch(site.address + path);
    const policies = headers.get('content-security-policy')?.split(', ') ?? [];
    const compiles = policies.length > 0 && policies.every((one) => one.includes("'wasm-unsafe-eval'"));
    expect(compiles, path).toBe(path === '/search/' || path === '/no-such-page/');
    for (const policy of policies)
      expect(policy, path).toMatch(/^default-src 'none'; .*frame-ancestors 'none'$/);
    expect(headers.get('x-content-type-options'), path).toBe('nosniff');
  }
});

/** Whether a page may compile code; a module of eight bytes is the smallest there is. */
const compiles = `WebAssembly.compile(new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0])).then(() => true, () => false)`;

test('the browser holds what is sent: the strict policy, and that no page is framed', async () => {
  const { page, close } = await site.open('/');
  expect(await page.evaluate(compiles)).toBe(false);
  await page.goto(`${site.address}/search/`);
  expect(await page.evaluate(compiles)).toBe(true);
  await page.goto('about:blank');
  await page.setContent(`<iframe src="${site.address}/"></iframe>`, { waitUntil: 'load' });
  expect(page.frames().map((frame) => frame.url())).toEqual(['about:blank', 'chrome-error://chromewebdata/']);
  await close();
});
