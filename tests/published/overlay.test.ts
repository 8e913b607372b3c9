import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import type { TraceEntry } from '../../src/overlay/index.ts';
import { printNumber } from '../../src/quantity/index.ts';
import { readCsv } from '../support/csv.ts';
import { demoJournal } from '../support/demo-journal.ts';
import { accessibilityFaults, type SiteInBrowser, siteInBrowser } from '../support/visit.ts';

const site = inject('site');
const fileOf = (path: string) => readFileSync(join(site, path), 'utf8');
const entries = JSON.parse(fileOf('overlay/traces.json')) as TraceEntry[];

const first = '2026-03-14-does-it-hold/heron-v1-distortion-1w:load';
const second = '2026-03-14-does-it-hold/heron-v2-distortion-1w:load';
const both = `?view=thd-frequency&trace=${first}&trace=${second}`;

let opened: SiteInBrowser;

beforeAll(async () => {
  opened = await siteInBrowser(site);
});

afterAll(() => opened.close());

interface Visitor {
  width?: number;
  colorScheme?: 'light' | 'dark';
  javaScriptEnabled?: boolean;
}

/** Opens the overlay page at an address and waits until it shows what that says. */
async function overlay(query: string, { width = 1280, ...visitor }: Visitor = {}) {
  const { page, complaints } = await opened.open(`/overlay/${query}`, {
    viewport: { width, height: 900 },
    ...visitor,
  });
  if (visitor.javaScriptEnabled !== false) {
    await page.locator(query === '' ? '#overlay' : '#overlay-drawing svg').waitFor();
  }
  return { page, complaints, close: () => page.context().close() };
}

const lines = (page: Page) => page.locator('#overlay-drawing [clip-path] path[stroke]').count();
const queryOf = (page: Page) => new URL(page.url()).search;
const plain = (text: string | null) => (text ?? '').replaceAll('\u00a0', ' ');
const titleOf = async (page: Page) => plain(await page.locator('#overlay-title').textContent());

/** What the page offers as a file. */
async function csvOf(page: Page): Promise<Record<string, string>[]> {
  const [download] = await Promise.all([page.waitForEvent('download'), page.click('#overlay-csv')]);
  return readCsv(readFileSync(await download.path(), 'utf8'));
}

describe('an address', () => {
  test('shows its traces, and is the same after the page has read it', async () => {
    const { page, complaints, close } = await overlay(`${both}&at=1000`);
    expect(await lines(page)).toBe(2);
    expect(queryOf(page)).toBe(`${both}&at=1000`);
    expect(await titleOf(page)).toMatch(
      /^THD, at 1\.00 kHz: 1\.73 % for Heron 1, .*; 0\.329 % for Heron 2, /,
    );
    expect(complaints).toEqual([]);
    await close();
  });

  test('follows what is chosen, and shows the same when it is opened anew', async () => {
    const { page, close } = await overlay(both);
    await page.selectOption('#overlay-norm', 'difference');
    await page.selectOption('#overlay-reference', second);
    await expect.poll(() => titleOf(page)).toContain('difference');
    const query = queryOf(page);
    expect(query).toBe(`${both}&norm=difference&reference=${second}`);
    const title = await titleOf(page);
    const again = await overlay(query);
    expect(await titleOf(again.page)).toBe(title);
    expect(await again.page.inputValue('#overlay-reference')).toBe(second);
    await close();
    await again.close();
  });

  test('that names what is not there says so, and shows the rest', async () => {
    const { page, close } = await overlay(`${both}&trace=gone:x`);
    expect(await page.textContent('#overlay-notes')).toContain('“gone:x”, which this journal does not have.');
    expect(await lines(page)).toBe(2);
    await close();
  });
});

describe('what is shown', () => {
  test('agrees with the figures of the captures at the cursor, and with their columns in the file', async () => {
    const journal = await demoJournal();
    const captures = journal.logs.flatMap((log) => log.captures);
    const { page, close } = await overlay(`${both}&at=1000`);
    const readings = await page.locator('#overlay-readings .value').allTextContents();
    const rows = await csvOf(page);
    for (const [i, trace] of [first, second].entries()) {
      const capture = captures.find(({ id }) => id === `logs/${trace.split(':')[0]}`);
      const figure = capture?.figures.find(({ id }) => id === 'thd-at-1khz')?.value ?? Number.NaN;
      expect(plain(readings[i] ?? '')).toBe(`${printNumber(100 * figure)} %`);
      const column = capture?.capture.columns.find(({ quantity }) => quantity === 'thd')?.values ?? [];
      const own = rows.filter((row) => row['trace'] === trace);
      expect(own).toHaveLength(column.length);
      for (const [row, { value, unit }] of own.entries()) {
        // Six digits are published.
        expect(Number(value) / 100 / (column[row] ?? Number.NaN)).toBeCloseTo(1, 5);
        expect(unit).toBe('%');
      }
    }
    await close();
  });

  test('as a difference is what the two readings say, in decibels', async () => {
    const { page, close } = await overlay(`${both}&norm=difference`);
    const rows = await csvOf(page);
    const measured = await overlay(both);
    const values = await csvOf(measured.page);
    const at = (trace: string, list: typeof rows) =>
      Number(list.find((one) => one['trace'] === trace && one['frequency_hz'] === '1002.37')?.['value']);
    // The file has six digits.
    expect(at(second, rows)).toBeCloseTo(20 * Math.log10(at(second, values) / at(first, values)), 4);
    expect(at(first, rows)).toBe(0);
    await close();
    await measured.close();
  });

  test('of spectra has noise floors, and a table that says that it is thinned', async () => {
    const spectra = entries.filter(({ views }) => views.includes('spectrum')).slice(0, 2);
    const { page, close } = await overlay(
      `?view=spectrum${spectra.map(({ id }) => `&trace=${id}`).join('')}`,
    );
    expect(await lines(page)).toBe(4);
    await page.click('.overlay details summary');
    expect(await page.locator('#overlay-table tbody tr').count()).toBeGreaterThan(10);
    expect(await page.textContent('#overlay-table-note')).toMatch(/^\d+ of \d+ readings\./);
    await close();
  });
});

describe('the keyboard', () => {
  test('chooses view, filter and traces, and moves the cursor, which is announced', async () => {
    const { page, close } = await overlay('');
    await page.focus('#overlay-view');
    await page.keyboard.type('THD against frequency');
    await page.focus('#overlay-amplifier');
    await page.keyboard.press('ArrowDown');
    await page.focus('#overlay-traces input');
    await page.keyboard.press('Space');
    await page.locator('#overlay-drawing svg').waitFor();
    expect(await page.evaluate(`document.activeElement.type`)).toBe('checkbox');
    await page.focus('#overlay-cursor');
    for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowRight');
    const spoken = page.locator('#overlay-said').filter({ hasText: /^at \d/ });
    await spoken.waitFor();
    const place = plain(await page.getAttribute('#overlay-cursor', 'aria-valuetext'));
    expect(plain(await spoken.textContent())).toContain(`at ${place}: `);
    await expect.poll(() => queryOf(page)).toContain('at=');
    expect(await page.locator('#overlay-readings li').count()).toBe(1);
    await close();
  });

  test('reaches every control in reading order', async () => {
    const { page, close } = await overlay(both);
    await page.focus('#overlay-view');
    const order: string[] = [];
    for (let i = 0; i < 12; i++) {
      order.push(String(await page.evaluate(`document.activeElement.id.replace(/^trace-.*/, 'trace')`)));
      await page.keyboard.press('Tab');
    }
    const wanted = [
      'overlay-view',
      'overlay-amplifier',
      'overlay-version',
      'trace',
      'overlay-norm',
      'overlay-cursor',
    ];
    expect(order.filter((id, i) => wanted.includes(id) && order.indexOf(id) === i)).toEqual(wanted);
    await close();
  });
});

test('a pointer pressed in the drawing sets the cursor to the reading beside it', async () => {
  const { page, close } = await overlay(both);
  await page.locator('#overlay-drawing svg').scrollIntoViewIfNeeded();
  const box = await page.locator('#overlay-drawing svg').boundingBox();
  if (!box) throw new Error('The drawing has no place.');
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width / 2 + 4, box.y + box.height / 2);
  await page.mouse.up();
  await expect.poll(() => queryOf(page)).toContain('at=');
  const at = Number(new URL(page.url()).searchParams.get('at'));
  const rows = await csvOf(page);
  expect(rows.map((row) => Number(row['frequency_hz']))).toContain(at);
  expect(await page.locator('#overlay-drawing circle').count()).toBe(2);
  await close();
});

describe('the page', () => {
  test.each(['light', 'dark'] as const)(
    'has no accessibility fault with traces and cursor in %s',
    async (scheme) => {
      const { page, complaints, close } = await overlay(`${both}&at=1000`, { colorScheme: scheme });
      expect(await accessibilityFaults(page)).toEqual([]);
      expect(complaints).toEqual([]);
      await close();
    },
  );

  test('fits a phone with traces, and its controls can be touched', async () => {
    const { page, close } = await overlay(`${both}&at=1000`, { width: 390 });
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390);
    const low = await page.evaluate(
      `[...document.querySelectorAll('.overlay select, .overlay button, .overlay input[type=range], #overlay-traces label')]
        .filter((control) => control.offsetHeight > 0 && control.offsetHeight < 44).length`,
    );
    expect(low).toBe(0);
    await close();
  });

  test('without JavaScript lists comparisons and captures instead', async () => {
    const { page, close } = await overlay('', { width: 1280, javaScriptEnabled: false });
    expect(await page.locator('#overlay').isVisible()).toBe(false);
    expect(await page.locator('#overlay-instead a[href="/comparisons/heron-drivers/"]').isVisible()).toBe(
      true,
    );
    expect(await page.locator('#captures ~ ul a').count()).toBeGreaterThan(20);
    await close();
  });

  test('has less than 40 kB of code, which no other page loads', () => {
    const [, script = ''] = /<script type="module" src="([^"]+)">/.exec(fileOf('overlay/index.html')) ?? [];
    // The budget of the design: a tenth of what a general charting library takes.
    expect(gzipSync(fileOf(script)).length).toBeLessThan(40_000);
    expect(gzipSync(fileOf(script)).length).toBeGreaterThan(2_000);
    expect(fileOf('index.html')).not.toContain(script);
  });
});

test('captures and comparisons lead to an overlay of what they show', async () => {
  const capture = fileOf('logs/2026-03-14-does-it-hold/heron-v1-distortion-1w/index.html');
  expect(capture).toContain(`href="/overlay/?view=thd-frequency&amp;trace=${first}"`);
  expect(fileOf('comparisons/heron-drivers/index.html')).toContain(
    `href="/overlay/${both.replaceAll('&', '&amp;')}"`,
  );
});

test('every trace can be filtered by what it was taken of', () => {
  expect(entries.length).toBeGreaterThan(30);
  for (const { id, version, amplifier } of entries) expect([id, version, amplifier]).not.toContain(null);
  expect(entries.some(({ parts }) => parts.length > 0)).toBe(true);
  expect(entries.find(({ id }) => id === first)?.alternatives).toHaveLength(1);
  expect(new Set(entries.map(({ title }) => title)).size).toBe(entries.length);
});
