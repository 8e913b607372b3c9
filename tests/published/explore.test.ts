import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { type CurveSource, exploredIn } from '../../src/overlay/explored/index.ts';
import { printNumber } from '../../src/quantity/index.ts';
import { demoJournal } from '../support/demo-journal.ts';
import { pagesOf } from '../support/demo-site.ts';
import { accessibilityFaults, type SiteInBrowser, siteInBrowser, type Visit } from '../support/visit.ts';

const folder = inject('site');
const sweep = '/logs/2026-03-14-does-it-hold/heron-v1-distortion-1w/';
/** Charts of that page, after the level that was held. */
const [thd, harmonics] = [1, 2];
const spectrum = '/logs/2026-02-28-a-driver-that-cancels/heron-v2-1khz-1w/';
const version = '/amplifiers/heron/v2/';
const comparison = '/comparisons/heron-drivers/';

let site: SiteInBrowser;
beforeAll(async () => {
  site = await siteInBrowser(folder);
});
afterAll(() => site.close());

const plain = (text: string | null) => (text ?? '').replaceAll('\u00a0', ' ');
const placeOf = async (page: Page) => plain(await page.textContent('.explorer output'));
const valuesOf = async (page: Page) =>
  (await page.locator('.explorer .value').allTextContents()).map((text) => plain(text));
const said = (page: Page, text: RegExp) => page.locator('.explorer-said').filter({ hasText: text }).waitFor();

/** Opens a page and explores one of its charts by the keyboard. */
async function explored(path: string, { chart = 0, ...visit }: Visit & { chart?: number } = {}) {
  const { page, complaints } = await site.open(path, { width: 1280, ...visit });
  await page.locator('.explore button').nth(chart).focus();
  await page.keyboard.press('Enter');
  await page.locator('.explorer output').waitFor();
  return { page, complaints, close: () => page.context().close() };
}

describe('before anybody asks', () => {
  test('no code and no curves are loaded, and afterwards they are', async () => {
    const requests: string[] = [];
    const { page } = await site.open('/404.html');
    page.on('request', (request) => requests.push(new URL(request.url()).pathname));
    await page.goto(`${site.address}${sweep}`);
    await page.locator('.explore button').nth(thd).hover();
    const early = requests.filter((path) => /\.js(on)?$/.test(path));
    expect(early.map((path) => path.replace(/^.*\/|\..*$/g, ''))).toEqual(['appearance', 'load-on-press']);
    await page.locator('.explore button').nth(thd).click();
    await page.locator('.explorer').waitFor();
    const late = requests.filter((path) => /\.js(on)?$/.test(path)).slice(early.length);
    expect(late.some((path) => path.endsWith('heron-v1-distortion-1w.json'))).toBe(true);
    await page.context().close();
  });

  test('the code waits in one file of less than 20 kB, an eighth of what a charting library takes', () => {
    const html = readFileSync(join(folder, sweep, 'index.html'), 'utf8');
    const [, script = ''] = /class="explore[^>]* data-module="([^"]+)"/.exec(html) ?? [];
    const size = gzipSync(readFileSync(join(folder, script))).length;
    expect(size).toBeGreaterThan(2000);
    expect(size).toBeLessThan(20_000);
  });

  test('without JavaScript there is no button, and the drawing and its numbers are there', async () => {
    const { page } = await site.open(sweep, { javaScriptEnabled: false, width: 1280 });
    expect(await page.locator('.explore button').first().isVisible()).toBe(false);
    expect(await page.locator('.wide-drawing svg').first().isVisible()).toBe(true);
    expect(await page.getByText('Numbers of this chart').first().isVisible()).toBe(true);
    await page.context().close();
  });
});

test('every button names curves that are published, with a line of two readings or more', () => {
  const kinds = new Set<string>();
  for (const path of pagesOf(folder).filter((one) => one.endsWith('/'))) {
    const html = readFileSync(join(folder, path, 'index.html'), 'utf8');
    for (const [, written = ''] of html.matchAll(/ data-curves="(\{[^"]*)"/g)) {
      const source = JSON.parse(written.replaceAll('&#34;', '"').replaceAll('&quot;', '"')) as CurveSource;
      const content: unknown = JSON.parse(
        readFileSync(join(folder, decodeURIComponent(source.file)), 'utf8'),
      );
      const chart = exploredIn(content, source);
      const readings = chart?.panels.flatMap(({ lines }) =>
        lines.flatMap(({ runs }) => runs[0]?.x.length ?? 0),
      );
      expect(Math.max(...(readings ?? [])), `${path} ${written}`).toBeGreaterThan(1);
      kinds.add(`${path.split('/')[1]} ${chart?.x.unit} ${chart?.panels.map(({ unit }) => unit).join()}`);
    }
  }
  expect([...kinds]).toEqual(
    expect.arrayContaining([
      'logs Hz %',
      'logs W %',
      'logs Hz Ω',
      'logs Hz dB re 1\u00a0kHz',
      'logs Hz dB re fundamental',
      'comparisons Hz %',
      'comparisons W %',
      'amplifiers Ω W,%',
      'amplifiers Hz W,%',
      'amplifiers W W,%',
    ]),
  );
});

describe('the keyboard', () => {
  test('moves the cursor, whose values are those of the capture, and is told them', async () => {
    const { page, complaints, close } = await explored(sweep, { chart: thd });
    expect(await placeOf(page)).toBe('1.002 kHz');
    const journal = await demoJournal();
    const capture = journal.logs
      .flatMap((log) => log.captures)
      .find(({ id }) => id.endsWith('heron-v1-distortion-1w'));
    const figure = capture?.figures.find(({ id }) => id === 'thd-at-1khz');
    const [value = ''] = await valuesOf(page);
    expect(value.startsWith(`${printNumber(100 * (figure?.value ?? 0))} %`)).toBe(true);
    // The interval that the instrument gives stands in brackets.
    expect(value).toMatch(/ \([\d.]+ to [\d.]+\)$/);
    await page.keyboard.press('ArrowRight');
    const place = await placeOf(page);
    expect(place).not.toBe('1.002 kHz');
    expect(plain(await page.getAttribute('.explorer input[type=range]', 'aria-valuetext'))).toBe(place);
    await said(page, /^At .*: load [\d.]+/);
    expect(complaints).toEqual([]);
    await close();
  });

  test('goes closer, wider, and back to all of the axis', async () => {
    const { page, close } = await explored(sweep);
    const axis = () => page.locator('.explorer svg text').allTextContents();
    const whole = await axis();
    await page.keyboard.press('+');
    await page.keyboard.press('+');
    await said(page, /^Shown: .* to .*\.$/);
    expect(await axis()).not.toEqual(whole);
    await page.keyboard.press('-');
    await page.keyboard.press('0');
    expect(await axis()).toEqual(whole);
    await close();
  });

  test('takes a line away and brings it back', async () => {
    const { page, close } = await explored(sweep, { chart: harmonics });
    const drawn = () => page.locator('.explorer [clip-path] path[stroke]').count();
    expect(await drawn()).toBe(2);
    await page.getByLabel('H3').focus();
    await page.keyboard.press('Space');
    expect(await drawn()).toBe(1);
    const [second, third] = await valuesOf(page);
    expect(second).toMatch(/%$/);
    expect(third).toBe('');
    await page.keyboard.press('Space');
    expect(await drawn()).toBe(2);
    await close();
  });

  test('goes from harmonic to harmonic of a spectrum', async () => {
    const { page, close } = await explored(spectrum);
    expect(await placeOf(page)).toMatch(/^(1\.99|2\.00)\d kHz, H2$/);
    await page.keyboard.press('PageUp');
    expect(await placeOf(page)).toMatch(/^(2\.99|3\.00)\d kHz, H3$/);
    const [level] = await valuesOf(page);
    const third = page.locator('.chart tbody').first().locator('tr').nth(1).locator('td');
    const [order, , fitted] = await third.allTextContents();
    expect(order).toBe('3');
    // The table has the fit's level, the spectrum the highest line beside it, at most 0.2 dB low by its caption.
    expect(Math.abs(decibels(level) - decibels(fitted ?? ''))).toBeLessThan(0.3);
    await close();
  });

  test('closes by Escape: the page is as it was, and the button has the focus again', async () => {
    const { page } = await site.open(sweep, { width: 1280 });
    const layout = () =>
      page.evaluate('[document.documentElement.scrollHeight, scrollY, document.activeElement.ariaLabel]');
    await page.locator('.explore button').first().focus();
    const figure = page.locator('figure', { has: page.locator('.explore') }).first();
    const before = await layout();
    await page.keyboard.press('Enter');
    await page.locator('.explorer').waitFor();
    expect(await page.locator('.is-explored .wide-drawing').isVisible()).toBe(false);
    await page.keyboard.press('Escape');
    expect(await page.locator('.explorer').count()).toBe(0);
    expect(await figure.locator('.wide-drawing').isVisible()).toBe(true);
    expect(await layout()).toEqual(before);
    await page.context().close();
  });
});

const decibels = (text = '') => Number(text.replace('−', '-').split(' ')[0]);

describe('a pointer', () => {
  test('moves the cursor of both panels, and chooses a part of the axis by dragging', async () => {
    const { page, complaints, close } = await explored(version);
    await page.locator('.explored-drawing').scrollIntoViewIfNeeded();
    const box = await page.locator('.explorer svg').first().boundingBox();
    if (!box) throw new Error('The drawing has no place.');
    const at = (share: number) => box.x + share * box.width;
    const middle = box.y + box.height / 2;
    await page.mouse.move(at(0.3), middle);
    const left = await placeOf(page);
    await page.mouse.move(at(0.7), middle);
    expect(await placeOf(page)).not.toBe(left);
    expect(await page.locator('.explorer svg circle').count()).toBe(4);
    await page.mouse.move(at(0.4), middle);
    await page.mouse.down();
    await page.mouse.move(at(0.5), middle);
    expect(await page.locator('.explored-shade').count()).toBe(2);
    await page.mouse.up();
    expect(await page.locator('.explored-shade').count()).toBe(0);
    await said(page, /^Shown: .* to .*\.$/);
    await page.getByRole('button', { name: 'all of the axis' }).click();
    expect(complaints).toEqual([]);
    await close();
  });

  test('that is a finger moves the cursor', async () => {
    const { page, close } = await explored(comparison, { hasTouch: true, width: 390 });
    const before = await placeOf(page);
    await page.locator('.explored-drawing').scrollIntoViewIfNeeded();
    const box = await page.locator('.explorer svg').first().boundingBox();
    if (!box) throw new Error('The drawing has no place.');
    await page.touchscreen.tap(box.x + 0.75 * box.width, box.y + box.height / 2);
    await expect.poll(() => placeOf(page)).not.toBe(before);
    await close();
  });
});

test('two charts of a page can be open at once, and each closes by itself', async () => {
  const { page, close } = await explored(sweep);
  await page.locator('.explore button').nth(1).click();
  await page.locator('.explorer').nth(1).waitFor();
  await page
    .getByRole('button', { name: /^Close/ })
    .first()
    .click();
  await expect.poll(() => page.locator('.explorer').count()).toBe(1);
  await close();
});

test.each(['light', 'dark'] as const)(
  'open charts have no accessibility fault in %s and fit a phone with targets of 44 px',
  async (colorScheme) => {
    for (const path of [sweep, spectrum, version, comparison]) {
      const { page, complaints, close } = await explored(path, { width: 390, colorScheme });
      expect(await accessibilityFaults(page), path).toEqual([]);
      expect(await page.evaluate('document.documentElement.scrollWidth'), path).toBeLessThanOrEqual(390);
      const small = await page.evaluate(
        `[...document.querySelectorAll('.explorer button, .explorer label, .explorer input[type=range], .explore button')]
          .filter(({ offsetHeight, offsetWidth }) => Math.min(offsetHeight, offsetWidth) < 44).length`,
      );
      expect(small, path).toBe(0);
      expect(complaints, path).toEqual([]);
      await close();
    }
  },
);

test('prints the drawing and not what was explored', async () => {
  const { page, close } = await explored(sweep);
  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('.explorer').isVisible()).toBe(false);
  expect(await page.locator('.is-explored .wide-drawing').isVisible()).toBe(true);
  await close();
});

test('says so where the curves cannot be read, and tries again when asked again', async () => {
  const { page } = await site.open(sweep, { width: 1280 });
  await page.route('**/overlay/curves/**', (route) => route.fulfill({ status: 503 }));
  await page.locator('.explore button').nth(thd).click();
  await page.getByText('The curves of this chart cannot be loaded.').waitFor();
  await page.unroute('**/overlay/curves/**');
  await page.locator('.explore button').nth(thd).click();
  await page.locator('.explorer').waitFor();
  await page.context().close();
});
