import { describe, expect, test } from 'vitest';
import {
  countText,
  levelMatch,
  levelText,
  probabilityText,
  resultTexts,
  type SessionCount,
  sessionResult,
} from '../../src/listening/index.ts';

const blind: SessionCount = {
  ...{ task: 'discrimination', isBlind: true, successes: 12, trials: 16, planned: 16 },
  effect: null,
};
const said = (changes: Partial<SessionCount>) => resultTexts(sessionResult({ ...blind, ...changes }));

describe('a blind session', () => {
  test('says how often guessing does as well, and that this is shown at 5 %', () => {
    expect(said({})).toEqual([
      'By guessing alone, 12 or more right answers of 16 come with a probability of 0.038 (exact binomial, one-sided).',
      'That is 5\u00a0% or less, so the session shows that the two were told apart.',
    ]);
  });

  test('that shows nothing says what would have been needed, and that this is no proof of likeness', () => {
    expect(said({ successes: 11 })[1]).toBe(
      'The session does not show that the two were told apart, for which 12 right answers would have been needed at 5\u00a0%. Nor does it show that the two sound alike.',
    );
    expect(said({ successes: 4, trials: 4, planned: 4 })[1]).toBe(
      'With 4 trials nothing can be shown at 5\u00a0%, whatever the answers.',
    );
  });

  test('without an aim says how many trials larger and larger shares take, unless it has shown something', () => {
    // The smallest numbers with both errors at most 5 %, computed with scipy: shared/checks/listening.json.
    expect(said({ successes: 11 })[2]).toBe(
      'What the session was to find is not stated. The trials that it takes to find a true share with a probability of 95\u00a0%: 268 for 60\u00a0%, 42 for 75\u00a0% and 13 for 90\u00a0%.',
    );
    expect(said({ successes: 12 })).toHaveLength(2);
    expect(said({ successes: 11, effect: { share: 0.7, power: 0.95 } })).toHaveLength(3);
  });

  test('with an aim says how surely it was to be found, and what number of trials would do', () => {
    expect(said({ effect: { share: 0.7, power: 0.95 } })[2]).toBe(
      'If the true share is 70\u00a0%, so many trials find it with a probability of 45\u00a0%; to find it with 95\u00a0%, 67 trials with 41 right answers would be needed.',
    );
  });

  test('says when its number of trials was not fixed, not reached or passed', () => {
    expect(said({ planned: null }).at(-1)).toMatch(/^The number of trials was not fixed beforehand: /);
    expect(said({ planned: 20 }).at(-1)).toMatch(/^The session stopped early, after 16 of 20 trials: /);
    expect(said({ planned: 12 }).at(-1)).toMatch(/^The session went on after the 12 trials .*, to 16: /);
    expect(said({})).toHaveLength(2);
  });

  test('of preference is two-sided, and shows it for either of the two', () => {
    const preference = { task: 'preference', successes: 2 } as const;
    expect(said(preference)).toEqual([
      'If neither were preferred, a division as uneven as this one or more so would come with a probability of 0.0042 (exact binomial, two-sided).',
      'That is 5\u00a0% or less, so the session shows a preference.',
    ]);
    expect(said({ ...preference, successes: 12 })[1]).toMatch(/13 choices of the same one/);
    const { judged } = sessionResult({ ...blind, ...preference });
    expect(judged?.isShown).toBe(true);
  });
});

describe('a sighted session', () => {
  test('has neither probability nor interval, whatever the answers and whatever was planned', () => {
    for (const planned of [null, 16, 20]) {
      const result = sessionResult({ ...blind, isBlind: false, successes: 16, planned });
      expect(result.judged).toBeNull();
      const text = resultTexts(result).join(' ');
      expect(text).toMatch(/^The trials were sighted: .* No probability is given for them\.$/);
      expect(text).not.toMatch(/\d/);
    }
  });

  test('without trials is a note', () => {
    expect(said({ isBlind: false, successes: 0, trials: 0 })[0]).toMatch(/a note of what was noticed/);
  });
});

test('without trials a blind session says nothing but that', () => {
  expect(said({ successes: 0, trials: 0 })).toEqual([]);
  expect(sessionResult({ ...blind, successes: 0, trials: 0 }).judged).toBeNull();
  expect(countText({ ...blind, trials: 0 }, ['A', 'B'])).toBe('No trial is on record.');
});

test('what was counted names right answers, or both alternatives', () => {
  expect(countText(blind, ['A', 'B'])).toBe('12 of 16 answers were right.');
  expect(countText({ ...blind, task: 'preference' }, ['A', 'B'])).toBe(
    'A was preferred in 12 of 16 trials, B in 4.',
  );
});

test('a very small probability is printed as a bound', () => {
  expect([0.0384, 0.5, 1, 1e-4, 9e-5].map(probabilityText)).toEqual([
    '0.038',
    '0.50',
    '1.0',
    '0.00010',
    'below 0.0001',
  ]);
});

describe('levelMatch', () => {
  const readings = (first: number, second: number) => [
    { of: 'a', value: first },
    { of: 'b', value: second },
  ];
  const match = (first: number, second: number) => levelMatch('voltage', readings(first, second), 0.1);

  test('is 20 lg of a ratio of voltages, and names the louder one', () => {
    const found = match(2, 4);
    // 20 lg 2, to the rounding of the arithmetic.
    expect(Math.abs((found?.differenceDb ?? 0) - 6.020599913279624)).toBeLessThan(1e-12);
    expect(found).toMatchObject({ louder: 'b', isWithin: false });
    expect(match(2.83, 2.84)).toMatchObject({ isWithin: true });
  });

  test('is the difference of sound levels, and the target itself is within it', () => {
    const found = levelMatch('meter', readings(84.3, 84.2), 0.1);
    // One decimal is read.
    expect(found?.differenceDb).toBeCloseTo(0.1, 10);
    expect(found).toMatchObject({ louder: 'a', isWithin: true });
  });

  test('has any target that is stated', () => {
    // 1 dB by meter: common practice, no source; a test value only.
    const byMeter = (target: number) => levelMatch('meter', readings(84.3, 85.2), target)?.isWithin;
    expect([1, 0.8, 0.1].map(byMeter)).toEqual([true, false, false]);
  });

  test('does not exist for one reading, or for no voltage', () => {
    expect(levelMatch('voltage', readings(1, 1).slice(1), 0.1)).toBeNull();
    expect(match(0, 1)).toBeNull();
  });

  test('stands beside every result in words', () => {
    const titleOf = (id: string) => id.toUpperCase();
    expect(levelText(match(2.83, 2.84), titleOf)).toBe(
      'The levels differed by 0.03\u00a0dB, within the target of 0.10\u00a0dB.',
    );
    expect(levelText(match(2.83, 2.9), titleOf)).toBe(
      'The levels differed by 0.21\u00a0dB, more than the target of 0.10\u00a0dB: B was louder, and what was heard may be that.',
    );
    expect(levelText(null, titleOf)).toMatch(/not on record/);
  });
});
