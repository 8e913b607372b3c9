import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, inject, test } from 'vitest';

const htmlOf = (page: string) => readFileSync(join(inject('site'), page, 'index.html'), 'utf8');
const textOf = (html: string) => html.replaceAll(/<[^>]+>/g, ' ').replaceAll(/[\s\u00a0]+/g, ' ');

const blind = 'listening/2026-07-25-slate-idle-current';
const sighted = 'listening/2026-03-20-heron-drivers-sighted';

test('a blind session shows its probability, both intervals, its levels and what it would have taken', () => {
  const text = textOf(htmlOf(blind));
  expect(text).toContain('10 of 16 answers were right.');
  expect(text).toContain('come with a probability of 0.23 (exact binomial, one-sided)');
  expect(text).toContain('38.6 % to 81.5 %');
  expect(text).toContain('35.4 % to 84.8 %');
  expect(text).toContain('23 trials with 16 right answers would be needed');
  expect(text).toContain('The levels differed by 0.01 dB, within the target of 0.10 dB.');
  expect(text).toContain('key file and trials agree with the hash');
});

test('a sighted note shows neither probability nor interval, and that its levels were not within the target', () => {
  const text = textOf(htmlOf(sighted));
  expect(text).not.toMatch(/probability|interval/);
  expect(text).toContain('more than the target of 0.10 dB: 12AT7 driver was louder');
});

test('what was heard in a band stands beside the distortion of the captures, which lead back to it', () => {
  const capture = 'logs/2026-03-14-does-it-hold/heron-v2-distortion-1w';
  const [, bands = ''] = htmlOf(sighted).split('id="bands"');
  expect(bands).toContain(`href="/${capture}/#bands"`);
  expect(textOf(bands)).toMatch(/20\.0 Hz to 100 Hz .*Leaner.* 2\.64 2\.16 31\.5 Hz, 63 Hz/);
  expect(htmlOf(capture)).toContain(`href="/${sighted}/#bands"`);
});

test('sessions are found from the navigation, their amplifier, version and decision, and lead back', () => {
  expect(htmlOf('')).toContain('href="/listening/"');
  for (const page of [
    'listening',
    'amplifiers/slate',
    'amplifiers/slate/v2',
    'decisions/0002-idle-current-of-slate',
  ])
    expect(htmlOf(page), page).toContain(`href="/${blind}/"`);
  for (const page of ['amplifiers/slate', 'amplifiers/slate/v2', 'decisions/0002-idle-current-of-slate'])
    expect(htmlOf(blind), page).toContain(`href="/${page}/"`);
});
