import { expect, test } from 'vitest';
import { addedTable } from '../../src/figures/index.ts';
import { openJournal } from '../../src/journal/index.ts';
import {
  type Files,
  log,
  problemsOf,
  settings,
  smallJournal,
  toneCsv,
  writeFiles,
} from '../support/journal.ts';

const first = 'logs/first/index.md';
/** A flat sweep with this phase over this many frequencies. */
const sweep = (degrees: number, from = 100) =>
  `${['frequency (Hz),grid (V),speaker (V),phase (°)', ...[1, 4, 16, 64, 128].map((times) => `${from * times},0.5,4,${degrees}`)].join('\n')}\n`;

const roles =
  'columns: { grid: { column: grid, role: stimulus }, speaker: { column: speaker, role: response } }';
const tone = (keys: string) => `  - { file: tone.csv, title: Tone, ${roles}, ${keys} }\n`;
const swept = `  - { file: sweep.csv, title: Sweep, ${roles} }\n`;
const files: Files = {
  'logs/first/tone.csv': toneCsv(['grid', 'speaker']),
  'logs/first/sweep.csv': sweep(0),
};
const faultsOf = (captures: string, more: Files = {}) =>
  problemsOf({ ...files, [first]: log(`captures:\n${captures}`), ...more });

async function toneOf(more: Files = {}, keys = '') {
  const text = log(`captures:\n${tone(`responseSweep: sweep${keys}`)}${swept}`);
  const folder = writeFiles({ ...smallJournal, ...files, [first]: text, ...more });
  const { journal, problems } = await openJournal(folder);
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  const capture = journal?.logs[0]?.captures[0];
  return { capture, added: capture?.figures.find(({ id }) => id === 'added-distortion') };
}

test('a named response sweep gives what was added between stimulus and response', async () => {
  // Both channels have the same 1 % of second harmonic in the same phase; nothing was added.
  const straight = await toneOf();
  expect(straight.added).toMatchObject({
    subject: 'speaker',
    unit: '1',
    low: 0,
    remark: 'not told from noise',
  });
  expect(straight.added?.value).toBeLessThan(1e-4);
  // A circuit that inverts would have turned the second against the fundamental: it added twice as much.
  const turned = await toneOf({ 'logs/first/sweep.csv': sweep(180) });
  // Noise of some 1e-5 in each line.
  expect(turned.added?.value).toBeCloseTo(0.02, 4);
  expect(turned.capture?.subtraction).toMatchObject({ stimulus: 'grid', response: 'speaker', leftOut: [] });
});

test('its interval holds the instrument in both channels, as each line of its table does', async () => {
  const instruments = `${settings}instruments:\n  - { id: meter, name: Meter, ownDistortion: 0.1 % }\n`;
  const turned = { 'logs/first/sweep.csv': sweep(180), 'journal.yaml': instruments };
  const { added, capture } = await toneOf(turned, ', instrument: meter');
  expect(added?.systematic).toBeCloseTo(0.001, 9);
  // 1.96 of 0.1 %, and less than 0.01 % of noise.
  expect(Math.abs((added?.high ?? 0) - 0.02 - 0.00196)).toBeLessThan(1e-4);
  if (!capture?.subtraction) throw new Error('no subtraction');
  const rows = addedTable(capture.subtraction, capture.measurement).rows;
  expect(rows[0]?.slice(0, 4)).toEqual(['2', '2000.0', '2.00', '± 0.20']);
  expect(rows[1]?.[5]).toBe('not told from noise, at or below the instrument’s own distortion');
  expect(addedTable(capture.subtraction, null).rows[1]?.[5]).toBe('not told from noise');
});

test('orders beyond the sweep are left out and named', async () => {
  const short = sweep(0).split('\n').slice(0, 4).join('\n');
  const upTo3 = { 'logs/first/sweep.csv': `${short}\n3200,0.5,4,0\n` };
  expect((await toneOf(upTo3)).added?.remark).toContain('without order 4, 5, 6, 7, 8, 9, 10');
});

test('a sweep that is not there, or is none, is refused at the key', async () => {
  expect(await faultsOf(tone('responseSweep: sweeps') + swept)).toContain(`
${first}:7:150 error dangling-reference
  There is no capture "sweeps" in this log or journal.
  Did you mean sweep?
`);
  expect(await faultsOf(tone('id: one, responseSweep: two') + tone('id: two'))).toContain(`
${first}:7:159 error not-a-response-sweep
  The capture "two" is a waveform that gives no level with phase against frequency.
  Name a frequency sweep from the stimulus to the response of this capture, with a column of phase.
`);
});

test('a sweep beside the fundamental, and a capture without stimulus and response, are refused', async () => {
  expect(
    await faultsOf(tone('responseSweep: sweep') + swept, { 'logs/first/sweep.csv': sweep(0, 2000) }),
  ).toContain(`error outside-sweep
  The response sweep "sweep" does not reach the fundamental of this capture.
`);
  const alone = '  - { file: tone.csv, title: Tone, responseSweep: sweep }\n';
  const oneChannel = { 'logs/first/tone.csv': toneCsv() };
  expect(await faultsOf(alone + swept, oneChannel)).toContain(`error no-stimulus-and-response
  A response sweep is named, but this capture gives no gain from a stimulus to a response.
`);
});
