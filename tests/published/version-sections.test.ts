import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { describe, expect, inject, test } from 'vitest';
import { browserMissing, findBrowser } from '../support/browser.ts';
import { serve } from '../support/serve.ts';

const plain = (page: string) =>
  readFileSync(join(inject('site'), page, 'index.html'), 'utf8').replaceAll(/\u00a0|&nbsp;/g, ' ');

/** What stands between the heading with an id and the next of the second level. */
function sectionOf(page: string, id: string): string {
  const [, after = ''] = plain(page).split(`id="${id}"`);
  return after.split('<h2 ')[0] ?? '';
}

describe('predicted against measured', () => {
  test('of a tube amplifier: a chart, its captures and what the model leaves out', () => {
    const section = sectionOf('amplifiers/heron/v1', 'predicted');
    expect(section).toMatch(/At 1 W: second harmonic [\d.]+ % measured, [\d.]+ % by the model/);
    expect(section).toContain('/logs/2026-02-07-where-the-second-comes-from/heron-v1-level-1khz/');
    expect(section).toContain('The stages before it are taken to be perfect');
    expect(section).toContain('measured higher');
    expect(section).toContain('/methods/#predicted-measured');
  });

  test('of a transistor amplifier: the largest sine alone', () => {
    const section = sectionOf('amplifiers/slate/v2', 'predicted');
    expect(section).toContain('no distortion, so only that power is compared');
    expect(section).toContain('Onset of clipping');
    expect(section).not.toContain('Second harmonic');
  });

  test('is not there without captures', () => {
    expect(plain('amplifiers/linnet/v1')).not.toContain('id="predicted"');
  });
});

test('a stage into a loudspeaker shows power and distortion over frequency, and its path where that is worst', () => {
  const section = sectionOf('amplifiers/heron/v2', 'output');
  expect(section).toMatch(/Most distortion, [\d.]+ %, at 20 Hz; least power, [\d.]+ W, at 63 Hz/);
  expect(section).toMatch(/At 20 Hz, where distortion is largest \([\d.]+ %\), the load is/);
});

test('a stage leads to its transformer, and the transformer to the stage', () => {
  expect(sectionOf('amplifiers/heron/v2', 'output')).toContain('href="/parts/heron-output/"');
  expect(plain('parts/heron-output')).toContain('href="/amplifiers/heron/v2/#output"');
});

describe('the list of sections', () => {
  test.each(['amplifiers/heron/v1', 'amplifiers/linnet/v1', 'logs/2026-03-14-does-it-hold'])(
    'of %s leads to every heading below it',
    (page) => {
      const [, after = ''] = plain(page).split('<nav class="page-contents"');
      const [nav = '', body = ''] = after.split('</nav>');
      const listed = [...nav.matchAll(/href="#([^"]+)"/g)].map(([, id]) => id);
      const headings = [...body.matchAll(/<h2[^>]*\sid="([^"]+)"/g)].map(([, id]) => id);
      expect(headings.length).toBeGreaterThan(4);
      expect(listed).toEqual(headings);
    },
  );

  test('stands open on a wide screen and opens on a phone, without a script', async () => {
    const executablePath = findBrowser();
    if (executablePath === null) throw new Error(browserMissing);
    const server = await serve(inject('site'));
    const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
    const linkAt = async (width: number) => {
      const context = await browser.newContext({
        viewport: { width, height: 900 },
        javaScriptEnabled: false,
      });
      const page = await context.newPage();
      await page.goto(`${server.address}/amplifiers/heron/v2/`);
      return { page, link: page.locator('.page-contents a', { hasText: 'Supply' }) };
    };
    const wide = await linkAt(1440);
    expect(await wide.link.isVisible()).toBe(true);
    const narrow = await linkAt(390);
    expect(await narrow.link.isVisible()).toBe(false);
    await narrow.page.locator('.page-contents summary').click();
    expect(await narrow.link.isVisible()).toBe(true);
    await browser.close();
    server.close();
  });
});
