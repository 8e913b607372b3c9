import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser } from 'playwright-core';

/** Something that a browser asked for, with its bytes on the way. */
interface Asked {
  path: string;
  bytes: number;
}

export interface Weight {
  /** All that was asked for without a reader's doing, pictures apart, in kB. */
  firstView: number;
  script: number;
  /** Code that waits for a press, as far as it was loaded nonetheless, in kB. */
  codeUnasked: number;
  /** The same code, as it would be loaded, in kB. */
  codeAsked: number;
  /** Cumulative layout shift. @source WICG Layout Instability, "Cumulative layout shift score" */
  shift: number;
}

const packed = /\.(woff2|webp|png|jpe?g|avif|wasm|pf_\w+|pagefind)$/;
const pictures = /\.(webp|png|jpe?g|avif|svg)$/;
const script = /\.js$/;

/** Bytes on the way with gzip at its strongest, which every host offers; brotli, where offered, makes less of it. */
const onTheWay = (path: string, body: Buffer) =>
  packed.test(path) ? body.length : gzipSync(body, { level: 9 }).length;

const shifts = `window.shift = 0;
  new PerformanceObserver((list) => {
    for (const { value, hadRecentInput } of list.getEntries()) if (!hadRecentInput) window.shift += value;
  }).observe({ type: 'layout-shift', buffered: true });`;

interface Place {
  address: string;
  page: string;
}

interface Visit {
  asked: readonly Asked[];
  /** Addresses of code that waits for a press. */
  modules: readonly string[];
  shift: number;
}

const [desk, phone] = [1280, 390];

/** A page has come when nothing more arrives for this long. */
const calmMs = 500;

const mostVisits = 4;

const seen = `[window.shift, [...new Set([...document.querySelectorAll('[data-module]')].map((one) => one.dataset.module))]]`;

/** Opens a page as a new visitor and weighs what the browser asks for by itself; what moves counts on a phone too. */
export async function weigh(
  browser: Browser,
  site: { folder: string; address: string },
  page: string,
): Promise<Weight> {
  const where = { address: site.address, page };
  const { asked, modules } = await visit(browser, where, desk);
  const sum = (matches: (path: string) => boolean) =>
    asked.filter(({ path }) => matches(path)).reduce((whole, { bytes }) => whole + bytes, 0) / 1000;
  const waiting = modules.map((path) => onTheWay(path, readFileSync(join(site.folder, path))));
  return {
    firstView: sum((path) => !pictures.test(path)),
    script: sum((path) => script.test(path)),
    codeUnasked: sum((path) => modules.includes(path)),
    codeAsked: waiting.reduce((whole, bytes) => whole + bytes, 0) / 1000,
    shift: Math.max(await leastShift(browser, where, desk), await leastShift(browser, where, phone)),
  };
}

/** What moves at every visit; a font that came late once, as the machine was busy, is no fault of the page. */
async function leastShift(browser: Browser, where: Place, width: number): Promise<number> {
  let least = Number.POSITIVE_INFINITY;
  for (let count = 0; count < mostVisits && least > 0; count += 1)
    least = Math.min(least, (await visit(browser, where, width)).shift);
  return least;
}

async function visit(browser: Browser, { address, page }: Place, width: number): Promise<Visit> {
  const context = await browser.newContext({ viewport: { width, height: 900 } });
  const view = await context.newPage();
  const coming: Promise<Asked>[] = [];
  view.on('response', (response) => {
    const { pathname: path } = new URL(response.url());
    if (response.url().startsWith(address))
      coming.push(response.body().then((body) => ({ path, bytes: onTheWay(path, body) })));
  });
  await view.addInitScript(shifts);
  await view.goto(address + page, { waitUntil: 'load' });
  await view.evaluate('document.fonts.ready.then(() => true)');
  for (let before = -1; before < coming.length; ) {
    before = coming.length;
    await view.waitForTimeout(calmMs);
  }
  const asked = await Promise.all(coming);
  const [shift, modules] = (await view.evaluate(seen)) as [number, string[]];
  await context.close();
  return { asked, modules, shift };
}
