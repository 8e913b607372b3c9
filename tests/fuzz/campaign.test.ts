import { expect, test } from 'vitest';
import { campaign, planOf } from './campaign.ts';

const cases = 100_000;
/** One sequence of cases for every run, so that a failure is one of the program and not of chance. */
const seed = 20_261_125;

const plan = planOf(cases);

test('the plan has as many cases as it says', () => {
  expect(plan.reduce((sum, { count }) => sum + count, 0)).toBeGreaterThanOrEqual(cases);
});

test.each(plan)(
  '$count spoilt inputs for $target are read without a crash, a hang or a stack trace, twice alike, each problem at its place',
  async ({ target, count }) => {
    expect(await campaign(target, count, seed)).toEqual([]);
  },
  600_000,
);
