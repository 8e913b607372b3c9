import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { budgets } from '../budgets/budgets.ts';
import { faultOf, isKept, measureBudgets } from '../budgets/measure.ts';
import { launchBrowser } from '../support/visit.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

/** Times depend on what else the machine does; the command holds them. */
const counted = budgets.filter((budget) => budget.counted !== 'paintMs');

test('the heaviest page of every kind keeps its budgets', async () => {
  const measured = await measureBudgets(browser, inject('site'), counted);
  expect(measured.filter((one) => !isKept(one)).map(faultOf)).toEqual([]);
});

test('a budget that is exceeded, and one without a page, say so in a line', async () => {
  const [first] = counted;
  if (!first) throw new Error('There is no budget.');
  const measured = await measureBudgets(browser, inject('site'), [
    { ...first, page: 'home', most: 1, reason: 'one' },
    { ...first, page: 'no kind', reason: 'none' },
  ]);
  expect(measured.map(isKept)).toEqual([false, false]);
  expect(measured.map(faultOf)).toEqual([
    expect.stringMatching(/^\/ \(home\): firstView is \d+\.\d kB, and 1\.0 kB is allowed: one\.$/),
    'The site has no page of the kind "no kind", so that its budget cannot be held.',
  ]);
});
