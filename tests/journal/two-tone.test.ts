import { expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { log, problemsOf, smallJournal, writeFiles } from '../support/journal.ts';

const first = 'logs/first/index.md';
const rate = 96_000;

/** Two tones through a gentle curve, in volts, with their rate above them. */
const csv = `# sample rate: 96 kHz\nspeaker [V]\n${Array.from({ length: 4096 }, (_, n) => {
  const wave = [250, 8000].reduce(
    (sum, hz, i) => sum + (i === 0 ? 0.8 : 0.2) * Math.cos((2 * Math.PI * hz * n) / rate),
    0,
  );
  return (wave + 0.01 * wave ** 2).toFixed(9);
}).join('\n')}\n`;

const withCapture = (keys: string) => ({
  ...smallJournal,
  [first]: log(`captures:\n  - file: two.csv\n    title: Two tones\n${keys}`),
  'logs/first/two.csv': csv,
});

test.each([
  ['declared as two-tone', '    kind: two-tone\n'],
  ['with its tones declared and no kind', '    tones: [ 250 Hz, 8 kHz ]\n'],
])('a capture %s gets modulation distortion', async (_, keys) => {
  const { journal, problems } = await openJournal(writeFiles(withCapture(keys)));
  expect(problems).toEqual([]);
  const [capture] = journal?.logs[0]?.captures ?? [];
  expect(capture?.kind).toBe('two-tone');
  const second = capture?.figures.find(({ id }) => id === 'modulation-second');
  // Sidebands k2·A·B each over B: 2·0.01·0.8; nine decimals in the file.
  expect(second?.value).toBeCloseTo(0.016, 7);
  expect(capture?.figures.find(({ id }) => id === 'intermodulation-f2-minus-f1')?.value).toBeCloseTo(
    0.008,
    7,
  );
});

test('two tones are never guessed: without a declaration the same file is a waveform', async () => {
  const { journal } = await openJournal(writeFiles(withCapture('')));
  expect(journal?.logs[0]?.captures[0]?.kind).toBe('waveform');
});

test.each([
  ['of another kind', '    kind: waveform\n    tones: [ 250 Hz, 8 kHz ]\n', 'tones-of-another-kind', 10],
  ['that are equal', '    tones: [ 1 kHz, 1000 Hz ]\n', 'number', 9],
  ['of zero', '    tones: [ 0 Hz, 1 kHz ]\n', 'number', 9],
])('tones %s are an error at their line', async (_, keys, rule, line) => {
  const problems = await problemsOf(withCapture(keys));
  expect(problems).toContain(`${first}:${line}:12 error ${rule}\n`);
});

test('a tone that is one only, or has no unit, is an error', async () => {
  const single = await problemsOf(withCapture('    tones: [ 1 kHz ]\n'));
  const bare = await problemsOf(withCapture('    tones: [ 60, 7 kHz ]\n'));
  for (const problems of [single, bare]) expect(problems).toMatch(/^\nlogs\/first\/index.md:9:\d+ error /);
});

test('a capture whose tones are not there keeps its place and says why in a warning', async () => {
  const { journal, problems } = await openJournal(writeFiles(withCapture('    tones: [ 1 kHz, 8 kHz ]\n')));
  expect(problems).toEqual([expect.objectContaining({ rule: 'declared-tone-missing', severity: 'warning' })]);
  const [capture] = journal?.logs[0]?.captures ?? [];
  expect(capture?.figures.find(({ id }) => id === 'modulation-second')).toMatchObject({
    value: null,
    absent: expect.stringContaining('declared tone'),
  });
});
