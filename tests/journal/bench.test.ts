import { expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import {
  log,
  problemsOf,
  settings,
  smallJournal,
  toneCsv,
  versionWith,
  writeFiles,
} from '../support/journal.ts';

const files = {
  'logs/first/tone.csv': toneCsv(),
  'logs/first/index.md': log(
    'version: amplifiers/tern/v1\ncaptures:\n  - { file: tone.csv, title: Tone, load: 8 Ω, instrument: card }\n',
  ),
};

async function captureWith(more: Record<string, string>) {
  const { journal, problems } = await openJournal(writeFiles({ ...smallJournal, ...files, ...more }));
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  const capture = journal?.logs.flatMap(({ captures }) => captures)[0];
  if (capture?.analysis.kind !== 'waveform') throw new Error('no waveform');
  return { capture, summary: capture.analysis.summary };
}

const card = `${settings}instruments:\n  - { id: card, name: Sound card, bandwidth: 20 kHz }\n`;

test('the mains frequency of the journal is that of its hum', async () => {
  const { summary } = await captureWith({ 'journal.yaml': `${card}mains: 60 Hz\n` });
  expect(summary.settings.mainsHz).toBe(60);
  expect(summary.channels[0]?.hum?.lines[0]?.frequencyHz).toBeCloseTo(60, 0);
});

test('without one it is 50 Hz', async () => {
  const { summary } = await captureWith({ 'journal.yaml': card });
  expect(summary.settings.mainsHz).toBe(50);
});

test('noise is compared with the rated output of the version measured', async () => {
  const { capture } = await captureWith({
    'journal.yaml': card,
    'amplifiers/tern/v1.md': versionWith('ratedLoad: 8 Ω\nratedPower: 2 W\n'),
  });
  const figure = capture.figures.find(({ id }) => id === 'signal-to-noise');
  // √(2 W · 8 Ω)
  expect(figure?.remark?.replaceAll('\u00a0', ' ')).toBe('re the rated output, 4.00 V');
});

test('without a rated power it is compared with the fundamental, and the load of the capture gives its power', async () => {
  const { capture } = await captureWith({ 'journal.yaml': card });
  const find = (wanted: string) => capture.figures.find(({ id }) => id === wanted);
  expect(find('signal-to-noise')?.remark).toContain('re the fundamental');
  // 1 V peak in 8 Ω.
  expect(find('fundamental-power')?.value).toBeCloseTo(1 / 16, 4);
});

test('an instrument whose band ends below half the rate lets nothing fold', async () => {
  const fast = toneCsv().replaceAll(
    /^(\d\.\d+),/gm,
    (_, time: string) => `${(Number(time) / 4).toFixed(7)},`,
  );
  // The same samples four times as fast: 4 kHz at 200 kHz, of which orders up to 30 are asked for.
  const asked = files['logs/first/index.md'].replace('load: 8 Ω', 'load: 8 Ω, harmonics: 30');
  const made = { 'logs/first/tone.csv': fast, 'logs/first/index.md': asked };
  const filtered = await captureWith({ ...made, 'journal.yaml': card });
  const open = await captureWith({ ...made, 'journal.yaml': card.replace('20 kHz', '2 MHz') });
  expect(filtered.summary.channels[0]?.thd).not.toBeNull();
  expect(open.summary.channels[0]?.thd).toBeNull();
  expect(open.capture.warnings.join()).toContain('would appear on');
});

test('a rated power without its load is an error at its line', async () => {
  expect(
    await problemsOf({ 'amplifiers/tern/v1.md': versionWith('ratedPower: 2 W\n') }),
  ).toMatchInlineSnapshot(`
    "
    amplifiers/tern/v1.md:6:13 error rated-load-missing
      A rated power needs the load that it is delivered into.
      Add ratedLoad:, for example ratedLoad: 8 Ω.
    "
  `);
});

test('a rated power of the wrong kind or of nothing is an error at its line', async () => {
  expect(
    await problemsOf({ 'amplifiers/tern/v1.md': versionWith('ratedLoad: 8 Ω\nratedPower: 2 V\n') }),
  ).toMatchInlineSnapshot(`
    "
    amplifiers/tern/v1.md:7:13 error quantity
      "2 V" is a voltage, but a power is expected here.
      Write a value such as 5 W.
    "
  `);
  expect(
    await problemsOf({ 'amplifiers/tern/v1.md': versionWith('ratedLoad: 8 Ω\nratedPower: 0 W\n') }),
  ).toMatchInlineSnapshot(`
    "
    amplifiers/tern/v1.md:7:13 error rated-power
      A rated power is above 0 W.
      Write what the amplifier delivers, for example ratedPower: 3 W.
    "
  `);
});
