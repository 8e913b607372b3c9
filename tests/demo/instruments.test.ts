import { join } from 'node:path';
import { expect, test } from 'vitest';
import { heronFromGrid } from '../../src/demo/heron.ts';
import { openJournal } from '../../src/journal/index.ts';

const { journal } = await openJournal(join(import.meta.dirname, '../../content'));
const captures = journal?.logs.flatMap((log) => log.captures) ?? [];
const figure = (capture: string, id: string, subject: string) =>
  captures
    .find(({ name }) => name === capture)
    ?.figures.find((candidate) => candidate.id === id && candidate.subject === subject);

test('the second harmonic that the scope adds to a clean generator is called its own', () => {
  const second = figure('heron-v1-1khz-1w-scope', 'harmonic-2', 'input');
  expect(second?.remark).toContain('own distortion');
  // The generator of the model is clean.
  expect(second?.low).toBe(0);
});

test('the intervals of scope and sound interface agree on the harmonics of one amplifier', () => {
  for (const id of ['harmonic-2', 'harmonic-3', 'thd']) {
    const scope = figure('heron-v1-1khz-1w-scope', id, 'load');
    const fine = figure('heron-v1-1khz-1w', id, 'load');
    expect(fine?.value).toBeGreaterThan(scope?.low ?? Number.POSITIVE_INFINITY);
    expect(fine?.value).toBeLessThan(scope?.high ?? 0);
  }
});

test('the third harmonic that the scope happens to read right is bounded by what it may add', () => {
  const third = figure('slate-40ma-1khz-250mw-codes', 'harmonic-3', 'output');
  expect(third?.low).toBe(0);
  // 0.036 % above the 0.3 % of the scope, as the log says; noise adds to it.
  expect(third?.high).toBeCloseTo(0.0036, 3);
});

test('what the log says of the interval at 19 and 20 kHz is what the page shows', () => {
  const third = figure('slate-150ma-19-20khz', 'difference-third', 'output');
  // From 0.0003 % to 0.0016 %, to the digits that the log prints.
  expect(100 * (third?.low ?? 0)).toBeCloseTo(0.0003, 4);
  expect(100 * (third?.high ?? 0)).toBeCloseTo(0.0016, 4);
});

test('what the page says the output stage added is what the model adds to a pure tone at its grid', () => {
  const added = figure('heron-v1-grid-and-speaker-1w', 'added-distortion', 'load');
  const gridRms = figure('heron-v1-grid-and-speaker-1w', 'fundamental-level', 'grid')?.value ?? 0;
  const alone = heronFromGrid(1000.3, gridRms).lines.map(({ re, im }) => Math.hypot(re, im));
  const expected = Math.hypot(...alone.slice(2, 11)) / (alone[1] ?? 1);
  // Within the interval, which the scope makes wide.
  expect(expected).toBeGreaterThan(added?.low ?? Number.POSITIVE_INFINITY);
  expect(expected).toBeLessThan(added?.high ?? 0);
});

test('a frequency says whether the clock of its recorder is stated', () => {
  const remarkOf = (capture: string, subject: string) =>
    figure(capture, 'fundamental-frequency', subject)?.remark;
  expect(remarkOf('heron-v1-1khz-1w', 'load')).toBe('without the recorder’s clock');
  expect(remarkOf('wren-1khz-1w-bypassed', 'load')).toBeUndefined();
});

test('every capture names an instrument of the journal, and most figures carry its part', () => {
  expect(captures.every(({ measurement }) => measurement !== null)).toBe(true);
  const limits = captures
    .flatMap(({ figures }) => figures)
    .filter(({ systematic }) => systematic !== undefined);
  expect(limits.length).toBeGreaterThan(100);
});
