import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, inject, test } from 'vitest';
import { tagSlug } from '../../src/journal/publishing/tags.ts';
import { demoJournal } from '../support/demo-journal.ts';
import { pagesOf } from '../support/demo-site.ts';

const site = inject('site');
const journal = await demoJournal();
const htmlOf = (page: string) => readFileSync(join(site, page, 'index.html'), 'utf8');

test('every tag of a log leads to its page, and the page leads back', () => {
  const tags = new Set<string>();
  for (const { id, data } of journal.logs) {
    for (const tag of data.tags) {
      const page = `tags/${tagSlug(tag)}`;
      tags.add(page);
      expect(htmlOf(id)).toContain(`<a href="/${page}/">${tag.replaceAll("'", '&#39;')}</a>`);
      expect(htmlOf(page), page).toContain(`href="/${id}/"`);
      expect(htmlOf('tags')).toContain(`href="/${page}/"`);
    }
  }
  expect(tags.size).toBeGreaterThan(15);
  expect(htmlOf('logs')).toContain('href="/tags/"');
});

test('the page of a tube leads to the versions that use it, whose pages lead back', () => {
  const page = htmlOf('tags/2a3');
  for (const version of ['amplifiers/heron/v1', 'amplifiers/heron/v2']) {
    expect(page).toContain(`href="/${version}/"`);
    expect(htmlOf(version)).toContain('href="/tags/2a3/"');
  }
  expect(page).not.toContain('href="/amplifiers/wren/v1/"');
  expect(page).toMatch(/<p class="kicker">Tube<\/p>/);
});

test('the page of a part lists the logs that are tagged with its title', () => {
  const log = 'logs/2026-03-14-does-it-hold';
  expect(htmlOf('parts/heron-output')).toContain(`href="/${log}/"`);
  expect(htmlOf('tags/herons-output-transformer')).toContain('href="/parts/heron-output/"');
  expect(htmlOf('parts/linnet-output')).not.toContain(`href="/${log}/"`);
});

test('tags are listed as tubes, parts and topics, each once', () => {
  const html = htmlOf('tags');
  const sections = Object.fromEntries(
    html
      .split('<h2>')
      .slice(1)
      .map((section) => [section.slice(0, section.indexOf('<')), section]),
  );
  expect(sections['Tubes']).toContain('href="/tags/2a3/"');
  expect(sections['Topics']).toContain('href="/tags/class-ab/"');
  expect(sections['Parts']).toMatch(/href="\/tags\/[^/]*transformer\/"/);
  const listed = [...html.matchAll(/href="(\/tags\/[^/]+\/)"/g)].map(([, address]) => address);
  expect(listed.toSorted()).toEqual(
    pagesOf(site)
      .filter((page) => /^\/tags\/./.test(page))
      .toSorted(),
  );
});

test('logs lead to the earlier and the later one of their amplifier, in the order of their dates', () => {
  for (const amplifier of journal.amplifiers) {
    const logs = journal.logs.filter(({ data }) => data.amplifier === amplifier.id);
    for (const [index, { id }] of logs.entries()) {
      const pager = /<nav class="pager"[\s\S]*?<\/nav>/.exec(htmlOf(id))?.[0] ?? '';
      const linked = [...pager.matchAll(/href="\/([^"]+)\/"/g)].map(([, address]) => address);
      const beside = [logs[index + 1], logs[index - 1]].flatMap((log) => log?.id ?? []);
      expect(linked, id).toEqual(beside);
    }
  }
});

test('every page but home and the lists says where it stands, by links from the top', () => {
  const deep = pagesOf(site).filter((page) => /^\/[^/]+\/[^/]+\//.test(page));
  expect(deep.length).toBeGreaterThan(50);
  for (const page of deep) {
    const trail = /<nav class="trail"[\s\S]*?<\/nav>/.exec(htmlOf(page))?.[0] ?? '';
    const linked = [...trail.matchAll(/href="([^"]+)"/g)].map(([, address = '']) => address);
    expect(linked.length, page).toBeGreaterThan(0);
    for (const address of linked) expect(pagesOf(site), page).toContain(address);
  }
});
