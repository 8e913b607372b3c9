import { describe, expect, test } from 'vitest';
import { trimText } from '../../src/compare/index.ts';
import {
  comparedJournal,
  comparisonFile,
  comparisonWith,
  frequencySweep,
  openCompared,
  withCriteria,
} from '../support/comparisons.ts';
import { log } from '../support/journal.ts';

const plain = (text: string) => text.replaceAll('\u00a0', ' ');
const findings = async (...opened: Parameters<typeof openCompared>) => {
  const { compared, problems } = await openCompared(...opened);
  const [pair] = compared?.pairs ?? [];
  return { compared, pair, problems, texts: pair?.findings.map(({ text }) => plain(text)) ?? [] };
};

/** Alternatives with other captures, from line 6 on. */
const naming = (old: string, fresh: string, keys = '') =>
  comparisonWith(`alternatives:
  - { id: old, title: Old part, captures: [ ${old} ] }
  - { id: new, title: New part, captures: [ ${fresh} ] }
${keys}`);

describe('a comparison', () => {
  test('reads its captures over frequency, over output power and over input voltage', async () => {
    const { pair, problems, texts } = await findings();
    expect(problems).toEqual([]);
    expect(pair?.curves.rankings.map(({ figure, along, held }) => [figure, along, plain(held)])).toEqual([
      ['thd', 'frequency', 'at 1.00 W'],
      ['harmonic-3', 'frequency', 'at 1.00 W'],
      ['thd', 'power', 'at 1 kHz'],
      ['thd', 'input', 'at 1 kHz'],
    ]);
    // 1 % against √(200/1000) = 0.447 % at 1 kHz.
    expect(texts[0]).toBe('Total distortion at 1.00 kHz is lower with New part: 0.447 % against 1.00 %.');
    expect(texts[1]).toMatch(
      /^Total distortion against frequency at 1\.00 W: below 200 Hz \(between 1\d\d Hz and 2\d\d Hz\) Old part is lower, by a factor of 3\.16 at 20\.0 Hz; above 200 Hz New part is lower, by a factor of 10\.0 at 20\.0 kHz\.$/,
    );
  });

  test('tells equal output power and equal input apart', async () => {
    const { pair } = await findings();
    const ratios = pair?.curves.rankings
      .filter(({ figure, along }) => figure === 'thd' && along !== 'frequency')
      .map(({ places }) => (places[5]?.first.value ?? 0) / (places[5]?.second.value ?? 1));
    // Four times at the same output; at the same input the old part gives twice the volts, and eight times. Six digits.
    expect(ratios?.[0]).toBeCloseTo(4, 3);
    expect(ratios?.[1]).toBeCloseTo(8, 3);
  });

  test('says how much louder one is, and the trim that makes both equal', async () => {
    const { pair } = await findings();
    const text = pair?.levels ? plain(trimText(pair.levels, ['Old part', 'New part'])) : '';
    expect(text).toMatch(
      /^At the same input Old part is 6\.02 dB louder .* passes 50\.0 % of the voltage on/,
    );
  });

  test('reads between levels and never beyond them', async () => {
    const files = {
      'logs/second/index.md': log(`captures:
  - { file: low.csv, title: Low, kind: frequency-sweep, load: 8 Ω }
  - { file: high.csv, title: High, kind: frequency-sweep, load: 8 Ω }
  - { file: far.csv, title: Far, kind: frequency-sweep, load: 8 Ω }
`),
      'logs/second/low.csv': frequencySweep(Math.SQRT2, () => 0.5),
      'logs/second/high.csv': frequencySweep(5.6569, () => 2),
      'logs/second/far.csv': frequencySweep(11.314, () => 3),
    };
    const between = await findings(
      naming('logs/first/old', 'logs/second/low, logs/second/high', 'mustMatch: [ load ]\n'),
      files,
    );
    const [ranking] = between.pair?.curves.rankings ?? [];
    expect(between.problems).toEqual([]);
    expect(plain(ranking?.held ?? '')).toBe('at 1.00 W');
    // In proportion to the voltage: 1 % at √(1.4142·5.6569) = 2.8284 V.
    expect(ranking?.places[3]?.second.value).toBeCloseTo(0.01, 6);
    const beyond = await findings(
      naming('logs/first/old', 'logs/second/high, logs/second/far', 'mustMatch: [ load ]\n'),
      files,
    );
    expect(beyond.pair?.curves.rankings).toEqual([]);
    expect(beyond.texts).toEqual([]);
    expect(beyond.problems).toEqual([
      expect.stringMatching(
        /8:\d+ warning comparison-levels\n {2}"old" and "new" both have sweeps over frequency/,
      ),
    ]);
  });

  test('warns of conditions that do not match, and names them', async () => {
    const second = log(
      'captures:\n  - { file: new.csv, title: New, kind: frequency-sweep, load: 4 Ω, conditions: { level: 2 W } }\n',
    );
    const { problems, pair } = await findings(naming('logs/first/old', 'logs/second/new'), {
      'logs/second/index.md': second,
      'logs/second/new.csv': comparedJournal['logs/first/new.csv'] ?? '',
    });
    expect(problems.map(plain)).toEqual([
      // The same volts into half the load are twice the power.
      expect.stringContaining('8:43 warning comparison-levels'),
      expect.stringMatching(
        /^comparisons\/parts\.md:8:45 warning comparison-conditions\n {2}"logs\/first\/old" and "logs\/second\/new" are compared, but differ in what must match: level 1 W and 2 W; load 8\.00 Ω and 4\.00 Ω\./,
      ),
    ]);
    expect(pair?.cautions).toHaveLength(2);
  });

  test('asks for the exchanged control where both alternatives are in one capture', async () => {
    const two = (names: string) => `f (Hz),left (V),right (V)\n10,1,1\n100,1,1\n1000,${names}\n10000,1,1\n`;
    const captures = log(`captures:
  - { file: both.csv, title: Both, kind: frequency-sweep, load: 8 Ω }
  - { file: swapped.csv, title: Swapped, kind: frequency-sweep, load: 8 Ω }
`);
    const files = {
      'logs/second/index.md': captures,
      'logs/second/both.csv': two('1,1'),
      'logs/second/swapped.csv': two('1,1'),
    };
    const alone = await findings(naming('logs/second/both#left', 'logs/second/both#right'), files);
    expect(alone.problems).toEqual([
      expect.stringMatching(
        /8:\d+ warning comparison-control\n.*not separated from the difference between the channels/,
      ),
    ]);
    const exchanged = naming(
      'logs/second/both#left, logs/second/swapped#right',
      'logs/second/both#right, logs/second/swapped#left',
    );
    const controlled = await findings(exchanged, files);
    expect(controlled.problems).toEqual([]);
    expect(
      controlled.pair?.captures.every(({ first, second }) => first.capture.id === second.capture.id),
    ).toBe(true);
  });
});

describe('criteria', () => {
  const criteria = `  - { title: At 1 kHz, weight: 3, figure: thd-at-1khz }
  - { title: Bass, weight: 1, figure: thd, over: [ 30 Hz, 60 Hz ] }
  - title: Price
    weight: 1
    stated: [ { of: old, is: 9.50 EUR, from: logs/first }, { of: new, is: 12 EUR, from: logs/first } ]
  - title: Mass
    weight: 0.5
    stated: [ { of: old, is: 0.9 kg, from: logs/first }, { of: new, is: 0.8 kg, from: logs/first } ]
    better: lower
`;

  test('order the alternatives by figures, prices and amounts, and say how far weights must move', async () => {
    const { compared, problems } = await findings(withCriteria(criteria));
    expect(problems).toEqual([]);
    expect(compared?.matrix.criteria.map(({ points }) => points)).toEqual([
      [0, 1],
      [1, 0],
      [1, 0],
      [0, 1],
    ]);
    // 2 against 3.5 of 5.5.
    expect(compared?.matrix.weighing?.totals[1]).toBeCloseTo(3.5 / 5.5, 12);
    expect(compared?.matrix.weighing?.moves.map(({ changesAt }) => changesAt)).toEqual([1.5, 2.5, 2.5, null]);
    expect(
      compared?.matrix.criteria[0]?.cells.map(({ page, anchor, text }) => [page, anchor, plain(text)]),
    ).toEqual([
      ['logs/first/old', 'summary', '1.000 % ± 0.001'],
      ['logs/first/new', 'summary', '0.4472 % ± 0.0010'],
    ]);
  });

  test('take a preference that chance does not explain, and nothing else of a listening session', async () => {
    const session = (task: string, answer: string) => `---
title: Heard
date: 2026-01-21
amplifier: amplifiers/tern
comparison: comparisons/parts
question: Which one?
source: a player
listening: blind
task: ${task}
alternatives: [ { id: old, title: Old part }, { id: new, title: New part } ]
plannedTrials: 10
trials: [ ${Array.from({ length: 10 }, () => `{ played: old, answer: ${answer} }`).join(', ')} ]
---
`;
    const points = async (task: string, answer: string) => {
      const { compared, problems } = await findings(
        withCriteria('  - { title: Heard, weight: 1, session: listening/heard }\n'),
        { 'listening/heard.md': session(task, answer) },
      );
      expect(problems).toEqual([]);
      return compared?.matrix.criteria[0]?.points;
    };
    expect(await points('preference', 'new')).toEqual([0, 1]);
    expect(await points('discrimination', 'old')).toEqual([0.5, 0.5]);
  });

  test.each([
    ['{ title: A, weight: 1 }', '10:14 error criterion', 'rests on exactly one of'],
    ['{ title: A, weight: -1, figure: thd }', '10:25 error number', 'A weight is a number from 0 up'],
    [
      '{ title: A, weight: 1, figure: hum }',
      '10:36 error unknown-figure',
      'No capture of "old" has the figure "hum"',
    ],
    [
      '{ title: A, weight: 1, figure: thd, over: [ 60 Hz, 30 Hz ] }',
      'error value',
      'does not begin below its end',
    ],
    ['{ title: A, weight: 1, figure: level-at-1khz }', 'error criterion', 'Neither a lower nor a higher'],
    ['{ title: A, weight: 1, part: price }', 'error criterion', 'names no part to read it from'],
    [
      '{ title: A, weight: 1, session: listening/none }',
      'error dangling-reference',
      'There is no listening session "listening/none"',
    ],
    [
      '{ title: A, weight: 1, stated: [ { of: other, is: 1 W, from: logs/first } ] }',
      'error criterion',
      'There is no alternative "other"',
    ],
    [
      '{ title: A, weight: 1, figure: thd, prefers: old }',
      'error criterion',
      'say themselves which alternative is better',
    ],
  ])('refuse %s', async (criterion, place, message) => {
    const { problems } = await openCompared(withCriteria(`  - ${criterion}\n`));
    expect(problems.join('\n')).toContain(place);
    expect(problems.join('\n')).toContain(message);
  });
});

describe('what a comparison names', () => {
  test.each([
    [
      'logs/first/old',
      'logs/first/none',
      '8:45 error dangling-reference',
      'There is no capture "logs/first/none"',
    ],
    ['logs/first/old', 'logs/first/old', 'error comparison', 'stands for two alternatives'],
    ['logs/first/old', 'logs/first/new#other', 'error unknown-channel', 'It has: load.'],
    ['logs/first/old', 'logs/first/new-level', 'warning comparison', 'have no capture of one kind'],
  ])('%s beside %s is told at its place', async (old, fresh, place, message) => {
    const { problems } = await openCompared(naming(old, fresh));
    expect(problems.join('\n')).toContain(place);
    expect(problems.join('\n')).toContain(message);
  });

  test('is resolved for amplifier, decision, version and part', async () => {
    const keys = comparisonWith().replace('amplifiers/tern', 'amplifiers/none');
    expect((await openCompared(keys)).problems.join()).toContain(
      `${comparisonFile}:4:12 error dangling-reference`,
    );
    const versions = comparisonWith().replace(
      'title: Old part,',
      'title: Old part, version: amplifiers/tern/v9, part: parts/x,',
    );
    const found = (await openCompared(versions)).problems.join();
    expect(found).toContain('There is no version "amplifiers/tern/v9"');
    expect(found).toContain('There is no part "parts/x"');
  });

  test('a listening session calls its alternatives as its comparison does', async () => {
    const session = `---
title: Heard
date: 2026-01-21
amplifier: amplifiers/tern
comparison: comparisons/parts
question: Which one?
source: a player
listening: sighted
alternatives: [ { id: old, title: Old part }, { id: other, title: Another }]
---
`;
    const { problems } = await openCompared(comparisonWith(), { 'listening/heard.md': session });
    expect(problems).toEqual([
      expect.stringMatching(
        /^listening\/heard\.md:9:53 error listening\n.*has no alternative "other"\.\n.*as they are called there: old, new\./,
      ),
    ]);
  });
});
