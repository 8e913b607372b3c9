import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, inject, test } from 'vitest';
import { pagePlaces } from '../../src/journal/publishing/page-places.ts';
import { demoJournal } from '../support/demo-journal.ts';

const htmlOf = (page: string) => readFileSync(join(inject('site'), page, 'index.html'), 'utf8');
/** What is the page's own, without navigation and footer. */
const ownOf = (page: string) => /<main id="content">([\s\S]*)<\/main>/.exec(htmlOf(page))?.[1] ?? '';
const hrefsOf = (page: string) =>
  [...ownOf(page).matchAll(/\shref="(\/[^"]*)"/g)].map(([, href = '']) => href);

/** Pages that a page leads to from its own text, without places on them. */
const pagesFrom = (page: string) =>
  new Set(hrefsOf(page).map((href) => href.replace(/#.*/, '').replaceAll(/^\/|\/$/g, '')));

const heron = [
  'logs/2026-02-28-a-driver-that-cancels',
  'amplifiers/heron/v2',
  'logs/2026-02-28-a-driver-that-cancels/heron-v2-1khz-1w',
  'comparisons/heron-drivers',
  'listening/2026-03-20-heron-drivers-sighted',
  'decisions/0001-driver-of-heron',
];
const slate = [
  'logs/2026-07-18-more-idle-current',
  'amplifiers/slate/v2',
  'logs/2026-07-18-more-idle-current/slate-150ma-level',
  'comparisons/slate-idle-current',
  'listening/2026-07-25-slate-idle-current',
  'decisions/0002-idle-current-of-slate',
];

test.each([
  ['Heron’s driver', heron],
  ['Slate’s idle current', slate],
])(
  'from the question of %s over calculation, captures and listening to the decision and back, each page leads to its neighbours',
  (_title, chain) => {
    for (const [index, page] of chain.entries()) {
      const neighbours = chain.filter((_, other) => Math.abs(other - index) === 1);
      const found = pagesFrom(page);
      for (const neighbour of neighbours) expect(found, `${page} to ${neighbour}`).toContain(neighbour);
    }
    const [question = '', calculation = ''] = chain;
    const decision = chain.at(-1) ?? '';
    expect(pagesFrom(decision)).toContain(question);
    expect(pagesFrom(question)).toContain(decision);
    expect(pagesFrom(decision)).toContain(calculation);
    expect(pagesFrom(calculation)).toContain(decision);
  },
);

test('a claim leads to the very capture, load sheet and claim, in either direction', () => {
  const links = [
    ['decisions/0001-driver-of-heron', '/amplifiers/heron/v1/#driver'],
    ['decisions/0001-driver-of-heron', '/amplifiers/heron/v2/#driver'],
    ['amplifiers/heron/v1', '/decisions/0001-driver-of-heron/#evidence-by-the-sheets'],
    ['amplifiers/heron/v2', '/decisions/0001-driver-of-heron/#evidence-by-the-sheets'],
    ['decisions/0002-idle-current-of-slate', '/amplifiers/slate/v2/#output'],
    ['amplifiers/slate/v2', '/decisions/0002-idle-current-of-slate/#evidence-class-a'],
    ['decisions/0002-idle-current-of-slate', '/logs/2026-07-18-more-idle-current/slate-150ma-level/#summary'],
    [
      'logs/2026-07-18-more-idle-current/slate-150ma-level',
      '/decisions/0002-idle-current-of-slate/#evidence-at-one-watt',
    ],
  ] as const;
  for (const [page, href] of links) {
    expect(hrefsOf(page), page).toContain(href);
    const [to = '', place] = href.slice(1).split('#');
    expect(htmlOf(to), href).toContain(`id="${place}"`);
  }
});

test('both decisions begin with expectations that are dated before them, and one overturns a rule of thumb', async () => {
  const { decisions } = await demoJournal();
  for (const id of ['decisions/0001-driver-of-heron', 'decisions/0002-idle-current-of-slate']) {
    const decision = decisions.find((one) => one.id === id);
    expect(decision?.expectations.length).toBeGreaterThan(0);
    for (const { date } of decision?.expectations ?? [])
      expect(date < (decision?.data.date ?? '')).toBe(true);
  }
  const failed = decisions
    .filter(({ data }) => data.state === 'decided')
    .flatMap(({ expectations }) => expectations)
    .filter(({ judgement }) => judgement.outcome === 'does not hold');
  expect(failed.map(({ data }) => data.id)).toEqual(['no-halfway']);
});

test('a link to any place that a page of the demo site has is accepted by check', async () => {
  const places = pagePlaces(await demoJournal());
  expect(places.size).toBeGreaterThan(60);
  for (const [page, { headings, others }] of places) {
    expect(existsSync(join(inject('site'), page, 'index.html')), page).toBe(true);
    const html = ownOf(page).replaceAll(/<svg[\s\S]*?<\/svg>/g, '');
    const ids = [...html.matchAll(/\sid="([^"]+)"/g)].map(([, id = '']) => id);
    const known = new Set([...headings, ...others]);
    expect(
      ids.filter((id) => !known.has(id)),
      page,
    ).toEqual([]);
  }
});
