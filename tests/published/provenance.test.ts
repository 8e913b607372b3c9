import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { pageKinds } from '../support/kinds.ts';
import { type SiteInBrowser, siteInBrowser } from '../support/visit.ts';

const folder = inject('site');
const kinds = pageKinds(folder);
const pagesOfKind = (wanted: string) => kinds.find(({ kind }) => kind === wanted)?.pages ?? [];
const htmlOf = (page: string) => readFileSync(join(folder, page, 'index.html'), 'utf8');
const methods = htmlOf('/methods/');

let site: SiteInBrowser;
beforeAll(async () => {
  site = await siteInBrowser(folder);
});
afterAll(() => site.close());

/**
 * Figures from which nothing leads to a capture, a method or a load sheet: neither a link of the row, drawing or list
 * that it stands in, nor one of its section. What a maker typed of parts is no figure.
 */
const unexplained = `(() => {
  const leads = (element) => [element, ...element.querySelectorAll('a[href]')].some((link) =>
    link.matches('a[href]') && /\\/methods\\/#|\\/logs\\/[^/]+\\/([^/]+\\/|#)|\\/amplifiers\\/[^/]+\\/[^/]+\\/#/.test(link.getAttribute('href')));
  const sectionOf = (element) => {
    let at = element;
    while (at.parentElement.tagName !== 'MAIN' && !at.parentElement.matches('section, .prose')) at = at.parentElement;
    const around = [at];
    for (let one = at; one && !one.matches('h2'); one = one.previousElementSibling) around.push(one);
    for (let one = at.nextElementSibling; one && !one.matches('h2'); one = one.nextElementSibling) around.push(one);
    return around;
  };
  const figures = [...document.querySelectorAll('main :is(.number, .figure-value, .outcome, svg.chart-drawing):not(th)')]
    .filter((one) => !one.closest('.chart details, .narrow-drawing') && !sectionOf(one).some((near) =>
      near.querySelector('#parts') || near.closest('section')?.querySelector(':scope > #parts')));
  const without = figures.filter((one) => !sectionOf(one).some(leads) && !leads(one.closest('section') ?? one));
  return { count: figures.length, without: without.map((one) => one.parentElement.outerHTML.slice(0, 120)) };
})()`;

describe.each([
  ['logs/[log]/index', 30],
  ['amplifiers/[amplifier]/[version]', 500],
  ['amplifiers/[amplifier]/units/[unit]', 10],
  ['comparisons/[comparison]', 60],
])('figures on pages of the kind %s', (kind, least) => {
  test('lead to the capture, the method or the load sheet behind them', async () => {
    let count = 0;
    for (const path of pagesOfKind(kind)) {
      const { page, close } = await site.open(path, { javaScriptEnabled: false });
      const found = (await page.evaluate(unexplained)) as { count: number; without: string[] };
      expect(found.without, path).toEqual([]);
      count += found.count;
      await close();
    }
    expect(count).toBeGreaterThan(least);
  });
});

describe.each(pagesOfKind('logs/[log]/[capture]'))('%s', (path) => {
  const html = htmlOf(path);
  const provenance = html.slice(html.indexOf('id="provenance"'));

  test('names its file with the hash of what is offered, the lines and settings, and the method of every figure', () => {
    const [, address = ''] = /<a href="([^"]+)" download/.exec(provenance) ?? [];
    const offered = readFileSync(join(folder, decodeURIComponent(address)));
    expect(provenance).toContain(createHash('sha256').update(offered).digest('hex'));
    const start = html.indexOf('id="summary"');
    const table = start < 0 ? '' : html.slice(start, html.indexOf('</table>', start));
    const rows = [...table.matchAll(/<th scope="row">([\s\S]*?)<\/th>/g)].map(([, cell = '']) => cell);
    for (const row of rows) {
      const [, method = 'none'] = /href="\/methods\/#([^"]+)"/.exec(row) ?? [];
      expect(methods, row).toContain(`id="${method}"`);
    }
    if (rows.length === 0) return;
    expect(table).toMatch(/<caption>[^<]*intervals? /);
    expect(provenance).toMatch(/<dt>Lines used<\/dt>\s*<dd>\s*\d+ to \d+/);
    expect(provenance.match(/<dt>/g)?.length).toBeGreaterThan(4);
  });
});
