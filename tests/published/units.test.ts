import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { expect, inject, test } from 'vitest';
import { browserMissing, findBrowser } from '../support/browser.ts';
import { serve } from '../support/serve.ts';

const site = inject('site');
const htmlOf = (page: string) => readFileSync(join(site, page, 'index.html'), 'utf8');
const plain = (page: string) =>
  htmlOf(page)
    .replaceAll(/<a class="address".*?<\/a>/g, '')
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll(/\u00a0|&nbsp;/g, ' ')
    .replaceAll(/\s+/g, ' ');

const version = 'amplifiers/wren/v2';
const unit = (name: string) => `amplifiers/wren/units/${name}`;
const log = 'logs/2026-10-03-four-wrens';

test('a version lists its parts with the cost of one unit and of a batch, and the list as a file', () => {
  const page = plain(version);
  // By hand, of the list beside the record: 39 + 31 + 24 + 12 + 2 · 2.60 + 1.20 + 0.80 + 2.50 + 7.40 + 0.60 + 5.10 + 1.10 + 0.30.
  expect(page).toContain('Parts of one unit 130.20 EUR');
  expect(page).toContain('Parts of a batch of 4 520.80 EUR');
  expect(page).toContain('In no sum, as the list gives no amount for them: Chassis.');
  const file = `${version.replace('/v2', '')}/wren-v2-parts.csv`;
  expect(htmlOf(version)).toContain(`href="/${file}"`);
  expect(readFileSync(join(site, file), 'utf8')).toBe(readFileSync(join('content', file), 'utf8'));
});

test('an old version says what the newer one changes for somebody who has built it', () => {
  const page = plain('amplifiers/heron/v1');
  expect(page).toMatch(
    /If you have built Heron 1: what Heron 2 changes (# )?Put a bleeder across each capacitor/,
  );
  expect(page).toMatch(/cost 41\.50 EUR together/);
  expect(page).toMatch(/Second harmonic 1\.66\d+ % ± 0\.00\d+ 0\.16\d+ % ± 0\.00\d+/);
  expect(plain('amplifiers/heron/v2')).not.toContain('If you have built');
});

test('a version withdrawn as dangerous heads every page that shows it', () => {
  const reason = 'Withdrawn as dangerous: Heron 1 . Its capacitors have no bleeders';
  const pages = ['', 'amplifiers', 'amplifiers/heron', 'amplifiers/heron/v1', 'logs/2026-01-18-first-sound'];
  const more = [
    'logs/2026-01-18-first-sound/heron-v1-response-1w',
    'decisions/0003-heron-1-without-bleeders',
    'listening/2026-03-20-heron-drivers-sighted',
  ];
  for (const page of [...pages, ...more]) expect(plain(page), page).toContain(reason);
  for (const page of ['amplifiers/heron/v2', 'amplifiers/wren', unit('w2-01')]) {
    expect(plain(page), page).not.toContain('Withdrawn as dangerous');
  }
  expect(plain('amplifiers/heron')).toContain('Heron 1 10 January 2026 withdrawn as dangerous');
});

test('the sheet of a unit says what is outside its limits, and what was done', () => {
  expect(plain(unit('w2-01'))).toContain('All 5 values are within the limits stated by the maker.');
  const mended = plain(unit('w2-03'));
  expect(mended).toMatch(/Cathode voltage 15\.1 V outside : 12\.5 V to 14\.5 V cathode resistor checked/);
  expect(mended).toMatch(/Cathode voltage 13\.6 V within : 12\.5 V to 14\.5 V read on 4 October 2026/);
  expect(mended).toContain('All 5 values are within the limits stated by the maker.');
  expect(plain(unit('w2-04'))).toContain('Outside the limits stated by the maker: Hum at the load.');
  expect(plain(unit('w2-04'))).toMatch(/THD, load W2-04 at 2 W 3\.06\d % ± 0\.0\d+ within : at most 3\.6 %/);
});

test('the spread of a batch stands on its version’s page with a chart for each figure', () => {
  const page = plain(version);
  // By hand: 13.1, 12.8, 13.6 and 13.3 V have the mean 13.2 V and squares of 0.34 V² about it: √(0.34/3) V.
  expect(page).toMatch(/Cathode voltage 4 13\.2 V 0\.34 V 12\.8 V 13\.6 V 12\.5 V to 14\.5 V/);
  expect(page).toContain('Hum at the load: 2.4 to 5.2 mV over 4 units, outside the limits: W2-04');
  expect(htmlOf(version)).toContain('href="/methods/#batch-spread"');
  for (const method of ['unit-limits', 'batch-spread']) {
    expect(htmlOf('methods')).toContain(`<h2 id="${method}">`);
  }
});

test('units, captures, logs, versions and amplifiers lead to each other', () => {
  const capture = `${log}/w2-03-1khz-2w`;
  for (const page of [version, 'amplifiers/wren', log, capture]) {
    expect(htmlOf(page), page).toContain(`href="/${unit('w2-03')}/"`);
  }
  expect(htmlOf(unit('w2-03'))).toContain(`href="/${capture}/#summary"`);
  expect(htmlOf(unit('w2-03'))).toContain(`href="/${version}/#units"`);
  expect(htmlOf(version)).toContain('id="units"');
});

test('an amplifier shows its figures over its versions with a small chart each, and what is open', () => {
  const html = htmlOf('amplifiers/heron');
  expect(html.match(/<td class="trend"><svg|<td class="trend"[^>]*>\s*<svg/g)?.length).toBeGreaterThan(3);
  expect(html).toMatch(
    /href="\/logs\/2026-02-28-a-driver-that-cancels\/heron-v2-1khz-1w\/#summary"[^>]*>0\.16\d+/,
  );
  const page = plain('amplifiers/heron');
  expect(page).toMatch(/Open questions Does Heron get a cathode follower .*? Decision: A follower in front/);
  expect(page).toMatch(
    /Not yet in hand Tube for a follower in Heron , ordered, delivery three weeks: for A follower/,
  );
  expect(html).toContain('href="/parts/heron-follower/"');
});

test('the sheet of a unit prints on one page of A4', async () => {
  const executablePath = findBrowser();
  if (executablePath === null) throw new Error(browserMissing);
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
  const server = await serve(site);
  const page = await browser.newPage();
  await page.goto(`${server.address}/${unit('w2-03')}/`, { waitUntil: 'load' });
  const pdf = (await page.pdf({ format: 'A4', preferCSSPageSize: true })).toString('latin1');
  await browser.close();
  server.close();
  expect(pdf.match(/\/Type\s*\/Page[^s]/g)).toHaveLength(1);
  // A4 is 210 mm by 297 mm, 595.3 by 841.9 points.
  expect(pdf).toMatch(/\/MediaBox\s*\[0 0 59[45]\.\d+ 84[12]\.\d+\]/);
});
