import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, inject, test } from 'vitest';
import type { Log } from '../../src/journal/types.ts';
import { demoJournal } from '../support/demo-journal.ts';
import { pageKinds } from '../support/kinds.ts';

const folder = inject('site');
const htmlOf = (page: string) => readFileSync(join(folder, page, 'index.html'), 'utf8');
const { logs } = await demoJournal();

/** Pages at the top of the site have nothing above them. */
const below = pageKinds(folder).filter(({ kind }) => kind.includes('['));

test.each(below)(
  'pages of the kind $kind say where they stand, each step a page of the site',
  ({ pages }) => {
    for (const path of pages) {
      const [, trail = ''] = /<nav class="trail"[^>]*>([\s\S]*?)<\/nav>/.exec(htmlOf(path)) ?? [];
      const steps = [...trail.matchAll(/href="([^"]+)"/g)].map(([, address = '']) => address);
      expect(steps.length, path).toBeGreaterThan(0);
      for (const step of steps) expect(htmlOf(step), `${path} to ${step}`).toContain('<h1');
    }
  },
);

/** Long pages have so many sections that a list of them stands above. */
const long = pageKinds(folder)
  .filter(({ kind }) => kind !== 'index')
  .flatMap(({ pages }) => pages)
  .filter((path) => path.endsWith('/'))
  .filter((path) => (htmlOf(path).match(/<h2[^>]* id="/g) ?? []).length >= 4);

test('a page with four sections or more lists them, and each has its address beside it', () => {
  expect(long.length).toBeGreaterThan(40);
  for (const path of long) {
    const html = htmlOf(path);
    const [, list = ''] = /<nav class="page-contents"[^>]*>([\s\S]*?)<\/nav>/.exec(html) ?? [];
    const listed = [...list.matchAll(/href="#([^"]+)"/g)].map(([, id]) => id);
    const sections = [...html.matchAll(/<h2[^>]* id="([^"]+)"/g)].map(([, id]) => id);
    expect(listed, path).toEqual(sections);
    for (const id of sections) expect(html, path).toContain(`<a class="address" href="#${id}"`);
  }
});

describe.each(Object.entries(Object.groupBy(logs, ({ data }) => data.amplifier)))(
  'the logs about %s',
  (_, found) => {
    const byDate = (found ?? []).toSorted((a, b) => (a.id < b.id ? -1 : 1));
    const step = (word: string, log: Log | undefined) =>
      log ? `<a href="/${log.id}/">${word}: ${log.data.title}</a>` : '';

    test('lead to the earlier and the later one', () => {
      for (const [index, { id }] of byDate.entries()) {
        const [, pager = ''] = /<nav class="pager"[^>]*>([\s\S]*?)<\/nav>/.exec(htmlOf(`/${id}/`)) ?? [];
        const expected = [step('Earlier', byDate[index - 1]), step('Later', byDate[index + 1])];
        expect(pager.replaceAll(/(?<=>)\s+|\s+(?=<)/g, ''), id).toBe(expected.join(''));
      }
    });
  },
);
