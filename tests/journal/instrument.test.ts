import { expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { log, problemsOf, settings, smallJournal, toneCsv, writeFiles } from '../support/journal.ts';

const instruments = (keys: string) =>
  `${settings}instruments:\n  - id: meter\n    name: Meter\n${keys.replaceAll(/^/gm, '    ')}\n`;

function capture(keys = ''): Record<string, string> {
  return {
    'logs/first/tone.csv': toneCsv(),
    'logs/first/index.md': log(`captures:\n  - file: tone.csv\n    title: Tone\n${keys}`),
  };
}
const named = '    instrument: meter\n';

async function figuresWith(keys: string, more = named) {
  const files = { ...smallJournal, ...capture(more), 'journal.yaml': instruments(keys) };
  const { journal } = await openJournal(writeFiles(files));
  const found = journal?.logs.flatMap(({ captures }) => captures)[0];
  return { found, figure: (id: string) => found?.figures.find((figure) => figure.id === id) };
}

test('what is stated about an instrument is in the intervals of the captures that name it', async () => {
  const { figure } = await figuresWith('gainAccuracy: 3 %\nownDistortion: 0.3 %');
  const level = figure('fundamental-level');
  expect(level?.systematic).toBeCloseTo((0.03 * (level?.value ?? 0)) / Math.sqrt(3), 12);
  expect(level?.provenance.settings['Instrument']?.replaceAll('\u00a0', ' ')).toBe(
    'Meter: gain within 3 %, own distortion 0.3 %',
  );
  expect(figure('harmonic-2')?.systematic).toBeCloseTo(0.003 / Math.SQRT2, 12);
  expect(figure('harmonic-2')?.remark).toBeUndefined();
  expect(figure('harmonic-3')?.remark).toBe(
    'not told from noise, at or below the instrument’s own distortion',
  );
});

test('a capture that names no instrument keeps the intervals of its noise', async () => {
  const without = await figuresWith('gainAccuracy: 3 %\nownDistortion: 0.3 %', '');
  const nothingStated = await figuresWith('bits: 24');
  expect(without.found?.measurement).toBeNull();
  for (const figure of without.found?.figures ?? []) {
    expect(figure).not.toHaveProperty('systematic');
    expect(figure.provenance.settings).not.toHaveProperty('Instrument');
    const same = nothingStated.figure(figure.id);
    expect([same?.value, same?.low, same?.high]).toEqual([figure.value, figure.low, figure.high]);
  }
});

test('own distortion against frequency is read at that of the capture', async () => {
  const { figure } = await figuresWith(
    'ownDistortion:\n  - { frequency: 100 Hz, ratio: 0.1 % }\n  - { frequency: 10 kHz, ratio: 0.3 % }',
  );
  // A tone of 1 kHz, half the way on the logarithmic axis.
  expect(figure('harmonic-2')?.systematic).toBeCloseTo(0.002 / Math.SQRT2, 7);
});

test('faults of own distortion are told at their own keys', async () => {
  const source = instruments(
    `ownDistortion:
  - { frequency: 1 kHz, ratio: 0.02 }
  - { frequency: 500 Hz, ratio: 0.02 % }
  - { frequency: 0 Hz, ratio: 100 % }
  - { freqency: 2 kHz }`,
  );
  expect(await problemsOf({ 'journal.yaml': source })).toMatchInlineSnapshot(`
    "
    journal.yaml:9:22 error number
      A frequency above 0 Hz is expected here.
    journal.yaml:9:35 error number
      A share from 0 % to below 100 % is expected here.
      Write the limit of the error, for example 3 %.
    journal.yaml:10:9 error missing-key
      The key "frequency" is missing.
      Add a line "frequency:" with its value.
    journal.yaml:10:9 error missing-key
      The key "ratio" is missing.
      Add a line "ratio:" with its value.
    journal.yaml:10:11 error unknown-key
      The key "freqency" is not known here.
      Did you mean frequency?
    "
  `);
});

test('own distortion as one value with a fault, as nothing, or as something else', async () => {
  expect(await problemsOf({ 'journal.yaml': instruments('ownDistortion: 3 dB') })).toMatchInlineSnapshot(`
    "
    journal.yaml:6:20 error quantity
      "3 dB" is a level, but a ratio is expected here.
      Write a value such as 43 %.
    "
  `);
  expect(await problemsOf({ 'journal.yaml': instruments('ownDistortion: []') })).toMatchInlineSnapshot(`
    "
    journal.yaml:6:20 error value
      There are too few entries; 1 are expected.
    "
  `);
  expect(
    await problemsOf({ 'journal.yaml': instruments('ownDistortion: { at: 1 kHz }') }),
  ).toMatchInlineSnapshot(`
    "
    journal.yaml:6:20 error wrong-type
      A ratio, or a list of frequencies with ratios, is expected here, but this is a group of keys.
    "
  `);
  expect(await problemsOf({ 'journal.yaml': instruments('ownDistortion: true') })).toMatchInlineSnapshot(`
    "
    journal.yaml:6:20 error wrong-type
      A ratio, or a list of frequencies with ratios, is expected here, but this is true.
      Put quotes around it if it is a text.
    "
  `);
});

test('a list that is not in the order of frequency is told at the entry', async () => {
  const points = [1, 2, 2].map((kilohertz) => `\n  - { frequency: ${kilohertz} kHz, ratio: 0.02 % }`);
  const source = instruments(`ownDistortion:${points.join('')}`);
  expect(await problemsOf({ 'journal.yaml': source })).toMatchInlineSnapshot(`
    "
    journal.yaml:9:22 error not-ascending
      This frequency is not above the one before it.
      Order the entries by frequency, each frequency once.
    "
  `);
});

test('limits of nothing or of more than all are refused', async () => {
  const source = instruments('gainAccuracy: 120 %\nlargestInput: 0 V');
  expect(await problemsOf({ 'journal.yaml': source })).toMatchInlineSnapshot(`
    "
    journal.yaml:6:19 error number
      A share from 0 % to below 100 % is expected here.
      Write the limit of the error, for example 3 %.
    journal.yaml:7:19 error number
      A voltage above 0 V is expected here.
    "
  `);
});

test('a reading above what the instrument takes is a warning at its line', async () => {
  const files = { ...capture(named), 'journal.yaml': instruments('largestInput: 0.5 V') };
  expect(await problemsOf(files)).toMatchInlineSnapshot(`
    "
    logs/first/tone.csv:940:1 warning above-largest-input
      Channel "speaker" reaches a peak of 1.01 V here, more than the 500 mV that its instrument takes.
      The reading may be cut off. Correct largestInput: or the scale: of the column, or measure again through a divider.
    "
  `);
});

test.each([
  { order: 'upward', rows: ['20;0.3', '1000;0.4', '5000;0.39', '20000;0.3'], line: 3 },
  { order: 'downward', rows: ['20000;0.3', '5000;0.39', '1000;0.4', '20;0.3'], line: 4 },
])(
  'an rms level of a sweep $order counts with the peak of its sine, at its own line',
  async ({ rows, line }) => {
    const files = {
      'logs/first/sweep.csv': `Hz;out (V)\n${rows.join('\n')}\n`,
      'logs/first/index.md': log(
        'captures:\n  - { file: sweep.csv, title: Sweep, kind: frequency-sweep, instrument: meter }\n',
      ),
      'journal.yaml': instruments('largestInput: 0.5 V'),
    };
    // √2 · 0.4 V.
    expect((await problemsOf(files)).replaceAll('\u00a0', ' ')).toContain(
      `logs/first/sweep.csv:${line}:1 warning above-largest-input\n  Channel "out" reaches a peak of 566 mV here`,
    );
  },
);

test('behind a probe the instrument takes more', async () => {
  const columns = '    columns: { speaker: { column: 2, scale: 10 } }\n';
  const files = { ...capture(named + columns), 'journal.yaml': instruments('largestInput: 1.5 V') };
  expect(await problemsOf(files)).toBe('\n\n');
});

test('a record in a small part of the range is a warning with the bits that are left', async () => {
  const files = { ...capture(named), 'journal.yaml': instruments('bits: 8\nlargestInput: 20 V') };
  expect(await problemsOf(files)).toMatchInlineSnapshot(`
    "
    logs/first/index.md:9:17 warning small-part-of-range
      Channel "speaker" uses 1.01 V of a range of 20.0 V, so that 3.7 bits of its converter are left.
      Choose a smaller range of the instrument, or state the largestInput: of the range that was used.
    "
  `);
  const enough = { ...capture(named), 'journal.yaml': instruments('bits: 8\nlargestInput: 5 V') };
  expect(await problemsOf(enough)).toBe('\n\n');
});
