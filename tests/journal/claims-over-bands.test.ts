import { expect, test } from 'vitest';
import { foundText } from '../../src/compare/index.ts';
import { openJournal } from '../../src/journal/index.ts';
import { decisionWith } from '../support/claims.ts';
import { comparedJournal } from '../support/comparisons.ts';
import { problemsOf, writeFiles } from '../support/journal.ts';

const file = 'decisions/0001-part.md';
const claims = (...bands: string[]) =>
  decisionWith(
    `state: open\nevidence:\n${bands
      .map(
        (keys) =>
          `  - says: It falls.\n    figure: thd\n    of: logs/first/new\n    than: logs/first/old\n    take: mean\n    ${keys}\n`,
      )
      .join('')}`,
  );

test('a claim over a band may be about the mean, which is judged once', async () => {
  const decision = claims(
    'over: [ 200 Hz, 2 kHz ]\n    relation: lower\n    by: 4 dB',
    'over: [ 200 Hz, 2 kHz ]\n    relation: lower\n    by: 6 dB',
    'over: [ 20 Hz, 2 kHz ]\n    relation: lower',
    'over: [ 10 Hz, 2 kHz ]\n    relation: lower',
  );
  const { journal } = await openJournal(writeFiles({ ...comparedJournal, [file]: decision }));
  const found = journal?.decisions[0]?.evidence.map(({ judgement }) => judgement) ?? [];
  // √(200 Hz/f) has its mean of the logarithm at √(200·2000) Hz: 0.562 %, which is 5.0 dB below 1 %; at 200 Hz it is 1 %.
  expect(found.map(({ outcome }) => outcome)).toEqual([
    'holds',
    'does not hold',
    'cannot be told apart',
    'no data',
  ]);
  expect(found[0]?.places).toBe(1);
  expect(found[0] && foundText(found[0]).replaceAll('\u00a0', ' ')).toMatch(
    /^THD, mean from 200 Hz to 2\.00 kHz, is 0\.562\d* % ± 0\.\d+, compared with 1\.000\d* % ± 0\.\d+, a difference of −5\.00 dB\.$/,
  );
});

test('a mean is taken over a band, and of nothing else', async () => {
  expect(
    await problemsOf({ ...comparedJournal, [file]: claims('at: { frequency: 1 kHz }\n    relation: lower') }),
  ).toContain(`${file}:12:11 error claim\n  A mean is taken over a band.`);
});
