import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, inject, test } from 'vitest';

const htmlOf = (page: string) => readFileSync(join(inject('site'), page, 'index.html'), 'utf8');
const plain = (page: string) =>
  htmlOf(page)
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll(/\u00a0|&nbsp;/g, ' ')
    .replaceAll(/\s+/g, ' ');
const drivers = 'comparisons/heron-drivers';
const currents = 'comparisons/slate-idle-current';

test('a comparison says its findings first, with the crossing and where it may lie', () => {
  const page = plain(drivers);
  expect(page).toMatch(
    /Findings # Total distortion at 1\.00 kHz is lower with 12AT7 driver: 0\.329 % against 1\.7\d %\. The order changes\. Second harmonic against frequency at 99\d mW: below 2\d\.\d Hz \(between 2\d\.\d Hz and 31\.7 Hz\) 12AX7 driver is lower/,
  );
  expect(page.indexOf('The order changes.')).toBeLessThan(page.indexOf('Alternatives #'));
  expect(page).toMatch(/\d+ readings were looked at/);
});

test('a comparison shows curves, bands, levels, figures and criteria, each leading to its evidence', () => {
  const html = htmlOf(drivers);
  for (const id of ['findings', 'curves', 'bands', 'levels', 'figures', 'criteria', 'listening']) {
    expect(html).toContain(`id="${id}"`);
  }
  expect(html.match(/<figure class="chart">/g)?.length).toBe(6);
  expect(plain(drivers)).toMatch(
    /turned down by 2\.7\d dB, which is a volume control that passes 73\.\d % of the voltage on/,
  );
  expect(plain(drivers)).toMatch(
    /Second harmonic at the lower end 2 4\.\d+ % .*? 1 point .*? 0 points above 3\.00: 12AX7 driver first/,
  );
  expect(html).toContain('href="/listening/2026-03-20-heron-drivers-sighted/#result"');
});

test('a listening session that shows nothing favours nobody in the criteria', () => {
  const page = plain(currents);
  expect(page).toMatch(
    /10 of 16 answers were right\. Probability by chance alone: 0\.23\. 0\.5 points not in the session 0\.5 points/,
  );
  expect(page).toContain('No curve of distortion was taken of both');
});

test('two responses of one capture are laid over each other, with what the missing exchange of channels leaves open', () => {
  const page = plain('comparisons/wren-two-loads');
  expect(page).toContain('on channels that were not exchanged');
  expect(page).toMatch(
    /Flat within 3 dB: 8 Ω resistor from \d+ Hz to 20 kHz and loudspeaker on the shelf from/,
  );
  expect(htmlOf('comparisons/wren-two-loads').match(/<figure class="chart">/g)?.length).toBe(1);
});

test('comparisons lead to what they use, and all of that leads back', () => {
  const pages = [
    '',
    'comparisons',
    'amplifiers/heron',
    'amplifiers/heron/v1',
    'amplifiers/heron/v2',
    'decisions/0001-driver-of-heron',
    'listening/2026-03-20-heron-drivers-sighted',
    'logs/2026-03-14-does-it-hold',
    'logs/2026-03-14-does-it-hold/heron-v2-distortion-1w',
  ];
  expect(htmlOf('')).toContain('href="/comparisons/"');
  for (const page of pages.slice(1)) {
    expect(htmlOf(page)).toContain(`href="/${drivers}/"`);
    expect(htmlOf(drivers)).toContain(`href="/${page}/`);
  }
  const repeated = 'logs/2026-07-18-more-idle-current/slate-150ma-again-3';
  expect(htmlOf(repeated)).toContain(`href="/${currents}/"`);
});
