import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, inject, test } from 'vitest';
import { quiescent } from '../support/command.ts';

const htmlOf = (page: string) => readFileSync(join(inject('site'), page, 'index.html'), 'utf8');
const plain = (page: string) =>
  htmlOf(page)
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll('\u00a0', ' ')
    .replaceAll('&nbsp;', ' ')
    .replaceAll(/\s+/g, ' ');
const driver = 'decisions/0001-driver-of-heron';
const current = 'decisions/0002-idle-current-of-slate';

test('a decision whose evidence a later capture broke says so on its page, its amplifier’s page and in check', () => {
  expect(plain(driver)).toContain('The evidence is not borne out: 1 of 4 claims');
  expect(plain(driver)).toMatch(/does not hold From 25 Hz to 10 kHz the second harmonic/);
  expect(plain(driver)).toMatch(/Second harmonic at 25\.0 Hz is 3\.64\d % ± 0\.\d+, compared with 3\.47\d %/);
  expect(plain('amplifiers/heron')).toContain(
    'The evidence of the decision Which driver for Heron is not borne out',
  );
  expect(plain('amplifiers/heron/v2')).toContain('decided, but its evidence is not borne out');
  expect(quiescent('check').stderr).toMatch(
    /0001-driver-of-heron\.md\n[\s\S]*?warning {2}The evidence "From 25 Hz/,
  );
});

test('a decision whose evidence is borne out is not marked, and shows the expectation that failed', () => {
  const page = plain(current);
  expect(page).not.toContain('not borne out');
  expect(page).toMatch(/does not hold · written 5 July 2026 While one half still stops/);
  expect(page).toMatch(/150 mA and the sink of 2\.2 K\/W \(chosen\)/);
  expect(plain('amplifiers/slate')).not.toContain('not borne out');
});

test('a decision leads to its captures, and captures, versions and amplifiers lead back', () => {
  const capture = 'logs/2026-02-28-a-driver-that-cancels/heron-v2-1khz-1w';
  expect(htmlOf(driver)).toContain(`href="/${capture}/#summary"`);
  expect(htmlOf(driver)).toContain('href="/amplifiers/heron/v2/"');
  expect(htmlOf(capture)).toContain(`href="/${driver}/#evidence-at-1-khz"`);
  expect(htmlOf(driver)).toContain('id="evidence-at-1-khz"');
  for (const page of ['amplifiers/heron/v2', 'amplifiers/heron', 'decisions']) {
    expect(htmlOf(page)).toContain(`href="/${driver}/"`);
  }
  const repeated = 'logs/2026-07-18-more-idle-current/slate-150ma-again-3';
  expect(htmlOf(repeated)).toContain(`href="/${current}/#evidence-against-80-ma"`);
});

test('a log shows what was expected before measuring, with the date and the outcome', () => {
  const page = plain('logs/2026-02-28-a-driver-that-cancels');
  expect(page).toMatch(/holds · written 21 February 2026 A driver whose second/);
  expect(page).toMatch(/does not hold · written 21 February 2026 The third harmonic falls to half or less/);
});

test('the expectations of the journal are gathered by rule, with how often each held', () => {
  const page = plain('expectations');
  expect(page).toContain('Of all expectations on record: held 4 of 8, failed 4.');
  expect(page).toMatch(/Put to the test 4 times, on Heron ?: held 2 of 4, failed 2\./);
  const html = htmlOf('expectations');
  for (const claim of [
    '/logs/2026-02-28-a-driver-that-cancels/#expectation-less-second',
    '/logs/2026-03-14-does-it-hold/#expectation-at-50-mw',
    '/logs/2026-03-14-does-it-hold/#expectation-at-10-khz',
    `/${current}/#expectation-no-halfway`,
  ]) {
    expect(html).toContain(`href="${claim}"`);
  }
  expect(htmlOf('decisions')).toContain('href="/expectations/"');
});

test('a decision withdrawn as dangerous stands as a warning on every page that shows it', () => {
  const shown = [
    'decisions/0003-heron-1-without-bleeders',
    'amplifiers/heron/v1',
    'amplifiers/heron',
    'logs/2026-01-18-first-sound',
    'logs/2026-01-18-first-sound/heron-v1-response-1w',
  ];
  for (const page of shown) expect(plain(page), page).toContain('Withdrawn as dangerous:');
  const others = ['amplifiers/heron/v2', 'amplifiers/slate', current, 'logs/2026-07-18-more-idle-current'];
  for (const page of others) expect(plain(page), page).not.toContain('Withdrawn as dangerous:');
  expect(plain('decisions')).toContain('withdrawn as dangerous');
});

test('figures in running text print their value with its interval and lead to where it is shown', () => {
  const figures = (page: string) =>
    [...htmlOf(page).matchAll(/<a class="figure-value"[^>]* href="([^"]+)"[^>]*>([^<]+)</g)].map(
      ([, href = '', text = '']) => [href, text.replaceAll('\u00a0', ' ').replaceAll('&nbsp;', ' ')],
    );
  const log = '/logs/2026-07-18-more-idle-current/';
  expect(figures('logs/2026-07-18-more-idle-current')).toEqual([
    [`${log}slate-80ma-1khz-250mw/#summary`, expect.stringMatching(/^0\.00699 % ± 0\.000\d+$/)],
    [`${log}#repeats-slate-150ma-five-times`, expect.stringMatching(/^0\.0012\d % ± 0\.000\d+$/)],
  ]);
  expect(figures('logs/2026-02-28-a-driver-that-cancels').map(([, text]) => text)).toEqual([
    expect.stringMatching(/^0\.16\d+ % ±/),
    expect.stringMatching(/^0\.28\d+ % ±/),
  ]);
  expect(figures('amplifiers/slate/v2')).toEqual([['/amplifiers/slate/v2/#output', '14.7 W']]);
});

test('the methods page tells what the outcome of a claim says', () => {
  expect(htmlOf('methods')).toContain('<h2 id="claims">');
});
