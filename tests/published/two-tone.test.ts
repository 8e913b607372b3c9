import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, inject, test } from 'vitest';

const htmlOf = (page: string) => readFileSync(join(inject('site'), page, 'index.html'), 'utf8');

test('a log shows two tones with their lines named, and the figures with reference and form', () => {
  const html = htmlOf('logs/2026-08-01-two-tones-at-once');
  expect(html).toContain('>2f1 − f2<');
  expect(html).toContain('Difference-frequency distortion, 2nd order (re one tone)');
  expect(html).toContain('Modulation distortion, 2nd order (sum of sidebands re upper tone)');
});

test('contested weightings stand below the summary of a waveform, in a section of their own, and not in a log', () => {
  const html = htmlOf('logs/2026-07-04-forty-milliamperes/slate-40ma-1khz-250mw');
  const [summary = '', contested = ''] = html.slice(html.indexOf('<main')).split('id="contested"');
  expect(summary).toContain('id="summary"');
  expect(summary).not.toContain('Harmonics weighted by');
  expect(contested).toContain('Harmonics weighted by n²/4');
  expect(htmlOf('logs/2026-07-04-forty-milliamperes')).not.toContain('Harmonics weighted by');
});
