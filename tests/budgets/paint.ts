import type { Browser } from 'playwright-core';

const slowdown = 4;
const loads = 5;

const watch = `window.painted = 0;
  new PerformanceObserver((list) => {
    for (const { startTime } of list.getEntries()) window.painted = startTime;
  }).observe({ type: 'largest-contentful-paint', buffered: true });`;

/**
 * Time from the request to the largest paint of a page's first screen in ms, with the processor slowed down: the
 * median of several first visits.
 * @source W3C Largest Contentful Paint
 */
export async function paintTime(browser: Browser, address: string): Promise<number> {
  const times: number[] = [];
  for (let load = 0; load < loads; load += 1) times.push(await oneLoad(browser, address));
  return times.sort((one, other) => one - other)[Math.floor(loads / 2)] ?? 0;
}

async function oneLoad(browser: Browser, address: string): Promise<number> {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slowdown });
  await page.addInitScript(watch);
  await page.goto(address, { waitUntil: 'load' });
  let painted = 0;
  for (let wait = 0; wait < 10 && painted === 0; wait += 1) {
    await page.waitForTimeout(500);
    painted = Number(await page.evaluate('window.painted'));
  }
  await context.close();
  return painted;
}
