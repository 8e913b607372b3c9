import { join } from 'node:path';
import { expect, test } from 'vitest';
import { toneCsv, writeFiles } from '../support/journal.ts';
import { ran } from '../support/output.ts';

const file = () => join(writeFiles({ 'tone.csv': toneCsv() }), 'tone.csv');
const plain = (text: string) => text.replaceAll('\u00a0', ' ');

test('inspect prints the harmonic profile and the lines of hum', async () => {
  const { code, result } = await ran('inspect', file(), '--load', '8');
  expect(code).toBe(0);
  expect(plain(result)).toMatch(/Harmonics of \S+\n +Order +Frequency, Hz +Level, %/);
  expect(plain(result)).toMatch(/Hum of \S+\n +Multiple +Frequency, Hz +Level/);
  expect(plain(result)).toMatch(/Output power +62\.5\d? mW, into 8\.00 Ω/);
  expect(plain(result)).toMatch(/Noise, A-weighted/);
});

test('inspect takes 50 Hz for the mains unless it is told otherwise', async () => {
  const hum = async (...more: string[]) => {
    const { result } = await ran('inspect', file(), '--json', ...more);
    return JSON.parse(result).settings.mainsHz;
  };
  expect(await hum()).toBe(50);
  expect(await hum('--mains', '60')).toBe(60);
  expect(await hum('--mains', '60 Hz')).toBe(60);
});

test('inspect refuses another mains frequency with one line', async () => {
  const { code, notice } = await ran('inspect', file(), '--mains', '400');
  expect(code).toBe(2);
  expect(notice).toContain('--mains takes 50 Hz or 60 Hz, not "400".');
});
