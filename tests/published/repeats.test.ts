import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, inject, test } from 'vitest';

const htmlOf = (page: string) => readFileSync(join(inject('site'), page, 'index.html'), 'utf8');
const log = 'logs/2026-07-18-more-idle-current';

test('a log shows its repeats: what was done anew, each capture, mean, scatter and what decides it', () => {
  const [, repeats = ''] = htmlOf(log).split('id="repeats-slate-150ma-five-times"');
  expect(repeats).toContain('Done anew between them: all clips taken off');
  for (const time of [1, 2, 3, 4, 5]) expect(repeats).toContain(`/${log}/slate-150ma-again-${time}/`);
  expect(repeats).toContain('Standard deviation of one');
  expect(repeats).toContain('The set-up, not the noise');
  expect(repeats).toContain('Nothing beyond noise');
});

test('a figure of repeats at the top of a log leads to them', () => {
  expect(htmlOf(log)).toContain(`href="/${log}/#repeats-slate-150ma-five-times"`);
});

test('the page of a capture says that it is one of several repeats', () => {
  expect(htmlOf(`${log}/slate-150ma-again-3`)).toMatch(
    /One of 5 repeats: <a href="[^"]+#repeats-slate-150ma-five-times"/,
  );
});

test('a version shows what was measured otherwise on the one it follows, and what may be said about it', () => {
  const [, measured = ''] = htmlOf('amplifiers/slate/v2').split('id="measured"');
  const words = measured.replaceAll(/<[^>]+>/g, '').replaceAll(/\s+/g, ' ');
  expect(words).toContain('Only Slate 2 was repeated; its scatter is taken to hold for both.');
  expect(words).toContain('Neither was repeated');
  expect(words).toMatch(/THD lower −0\.\d+ % ±/);
  expect(words).toContain('different in these captures');
  expect(measured).toContain('no data: They are taken on different terms');
});

test('the methods page tells how repeats are taken together and what each verdict says', () => {
  const html = htmlOf('methods');
  for (const id of ['repeats', 'differences']) expect(html).toContain(`<h2 id="${id}">`);
  for (const words of [
    'Lower or higher:',
    'Different in these captures:',
    'Cannot be told apart:',
    'No data:',
  ]) {
    expect(html).toContain(words);
  }
});
