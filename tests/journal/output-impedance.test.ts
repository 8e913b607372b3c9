import { expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { log, problemsOf, smallJournal, version, writeFiles } from '../support/journal.ts';

const frequencies = Array.from({ length: 31 }, (_, i) => 20 * 1000 ** (i / 30));
/** Levels of a source of 2.9 V behind 0.1 Ω. */
const level = (load: number) => (2.9 * load) / (load + 0.1);
const csv = (header: string, row: (hertz: number) => (number | string)[]) =>
  `${[header, ...frequencies.map((hertz) => [hertz.toFixed(3), ...row(hertz)].join(','))].join('\n')}\n`;

const files = {
  'amplifiers/tern/v1.md': version.replace('state: current', 'state: current\nratedLoad: 8 Ω'),
  'logs/first/both.csv': csv('frequency (Hz),a (V),b (V)', () => [level(8), level(4)]),
  'logs/first/into-8.csv': csv('frequency (Hz),a (V)', () => [level(8)]),
  'logs/first/into-4.csv': csv('frequency (Hz),a (V)', () => [level(4)]),
  'logs/first/box.csv': csv('frequency (Hz),impedance (ohm)', (hertz) => [hertz < 100 ? 30 : 6]),
};
const captures = (...lines: string[]) =>
  log(`version: amplifiers/tern/v1\ncaptures:\n${lines.map((line) => `  - ${line}\n`).join('')}`);
const box = '{ file: box.csv, title: Box, impedanceOf: loudspeaker }';
const both = (keys = '', columns = '{ a: { column: a, load: 8 Ω }, b: { column: b, load: 4 Ω } }') =>
  `{ file: both.csv, title: Both, ${keys}columns: ${columns} }`;

async function opened(text: string, more: Record<string, string> = {}) {
  const { journal, problems } = await openJournal(
    writeFiles({ ...smallJournal, ...files, 'logs/first/index.md': text, ...more }),
  );
  expect(problems).toEqual([]);
  return journal?.logs.flatMap((entry) => entry.captures) ?? [];
}
const figure = (found: Awaited<ReturnType<typeof opened>>, capture: string, id: string) =>
  found.find(({ name }) => name === capture)?.figures.find((candidate) => candidate.id === id);

test('two channels of one sweep, each with its load, give output impedance and damping factor of the version', async () => {
  const found = await opened(captures(both('readingAccuracy: 0.1 %, ')));
  // Levels are printed with all digits.
  expect(figure(found, 'both', 'output-impedance-at-1khz')?.value).toBeCloseTo(0.1, 10);
  expect(figure(found, 'both', 'output-impedance-at-1khz')?.high).toBeGreaterThan(0.1);
  expect(figure(found, 'both', 'damping-factor-at-1khz')?.value).toBeCloseTo(80, 7);
  expect(found[0]?.findings[0]).toMatch(/no phase/);
});

test('so do two captures, and a rated load at the capture wins over that of the version', async () => {
  const found = await opened(
    captures(
      '{ file: into-8.csv, title: Into 8, load: 8 Ω, otherLoad: into-4, ratedLoad: 4 Ω }',
      '{ file: into-4.csv, title: Into 4, load: 4 Ω }',
    ),
  );
  expect(figure(found, 'into-8', 'damping-factor-at-1khz')?.value).toBeCloseTo(40, 7);
  expect(figure(found, 'into-4', 'damping-factor-at-1khz')).toBeUndefined();
});

test('a loudspeaker is named by its name in the log or by its whole id, in another log too', async () => {
  const near = await opened(captures(both('loudspeaker: box, '), box));
  const far = await opened(captures(both('loudspeaker: logs/second/box, ')), {
    'logs/second/index.md': captures(box),
    'logs/second/box.csv': files['logs/first/box.csv'],
  });
  const expected = 20 * Math.log10(30 / 30.1 / (6 / 6.1));
  for (const found of [near, far]) {
    expect(figure(found, 'both', 'largest-response-error')?.value).toBeCloseTo(expected, 6);
  }
});

test("an amplifier's own impedance sweep is taken as its output impedance", async () => {
  const found = await opened(captures('{ file: box.csv, title: Out, impedanceOf: amplifier }'));
  expect(figure(found, 'box', 'output-impedance-at-1khz')?.value).toBeCloseTo(6, 10);
  expect(figure(found, 'box', 'rated-impedance')).toBeUndefined();
});

test.each([
  [
    'an unknown loudspeaker',
    captures(both('loudspeaker: bux, '), box),
    /first\/index\.md:8:\d+ error dangling-reference[\s\S]*Did you mean box/,
  ],
  [
    'a loudspeaker that is no impedance',
    captures(both('loudspeaker: into-8, '), '{ file: into-8.csv, title: A }'),
    /:8:\d+ error not-an-impedance-sweep/,
  ],
  [
    'a loudspeaker without an output',
    captures('{ file: into-8.csv, title: A, loudspeaker: box }', box),
    /:8:\d+ error no-output-impedance/,
  ],
  [
    'one load of two',
    captures(both('', '{ a: { column: a, load: 8 Ω }, b: { column: b } }')),
    /:8:\d+ error two-loads-needed/,
  ],
  [
    'equal loads',
    captures(both('', '{ a: { column: a, load: 8 Ω }, b: { column: b, load: 8 Ω } }')),
    /:8:\d+ error two-loads-needed[\s\S]*8\.00\sΩ/,
  ],
  [
    'another sweep without a load',
    captures(
      '{ file: into-8.csv, title: A, load: 8 Ω, otherLoad: into-4 }',
      '{ file: into-4.csv, title: B }',
    ),
    /:8:\d+ error two-loads-needed/,
  ],
  [
    'an unknown other sweep',
    captures('{ file: into-8.csv, title: A, load: 8 Ω, otherLoad: into-5 }'),
    /:8:\d+ error dangling-reference/,
  ],
  [
    'a power that is none',
    captures('{ file: into-8.csv, title: A, atPower: [ 1 W, 0 W ] }'),
    /:8:\d+ error number[\s\S]*above 0 W/,
  ],
  ['a load that is no resistance', captures(both('', '{ a: { column: a, load: 8 V } }')), /:8:\d+ error/],
])('%s is told at its key', async (_title, text, expected) => {
  expect(await problemsOf({ ...files, 'logs/first/index.md': text })).toMatch(expected);
});
