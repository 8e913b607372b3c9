import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import sharp from 'sharp';
import { beforeAll, expect, inject, test } from 'vitest';
import { allDangers } from '../../src/site/dangers.ts';
import { browserMissing, findBrowser } from '../support/browser.ts';
import { demoJournal } from '../support/demo-journal.ts';

const site = inject('site');
const journal = await demoJournal();
const feed = readFileSync(join(site, 'feed.xml'), 'utf8');

interface Entry {
  title: string;
  link: string;
  guid: string;
  date: string;
  content: string;
  /** Addresses in the content, and the alternative texts of its pictures. */
  addresses: string[];
  alternatives: string[];
}

let entries: Entry[];
let self: string;

/** Reads the feed as a browser does, which refuses XML that is not well-formed. */
beforeAll(async () => {
  const executablePath = findBrowser();
  if (executablePath === null) throw new Error(browserMissing);
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
  const page = await browser.newPage();
  const read = `(xml) => {
    const doc = new DOMParser().parseFromString(xml, 'application/xml');
    const fault = doc.querySelector('parsererror');
    if (fault) throw new Error(fault.textContent);
    const all = (node, selector) => [...node.querySelectorAll(selector)];
    return {
      self: doc.getElementsByTagNameNS('http://www.w3.org/2005/Atom', 'link')[0].getAttribute('href'),
      entries: all(doc, 'channel > item').map((item) => {
        const text = (name) => item.querySelector(name).textContent;
        const content = item.getElementsByTagName('content:encoded')[0].textContent;
        const html = new DOMParser().parseFromString(content, 'text/html');
        return {
          title: text('title'), link: text('link'), guid: text('guid'), date: text('pubDate'), content,
          addresses: all(html, '[href],[src]').map((one) => one.getAttribute('href') ?? one.getAttribute('src')),
          alternatives: all(html, 'img').map((one) => one.alt),
        };
      }),
    };
  }`;
  ({ entries, self } = (await page.evaluate(`(${read})(${JSON.stringify(feed)})`)) as {
    entries: Entry[];
    self: string;
  });
  await browser.close();
});

const fileOf = (address: string) => {
  const { pathname } = new URL(address);
  return join(site, decodeURIComponent(pathname.endsWith('/') ? `${pathname}index.html` : pathname));
};

test('the feed names itself, and every page leads to it', () => {
  expect(self).toBe('https://example.org/feed.xml');
  const home = readFileSync(join(site, 'index.html'), 'utf8');
  expect(home).toMatch(/<link rel="alternate" type="application\/rss\+xml"[^>]* href="\/feed\.xml"/);
});

test('what was withdrawn as dangerous stands first and says why; then every log, the newest first', () => {
  const dangers = allDangers(journal);
  const logs = journal.logs;
  expect(dangers).not.toHaveLength(0);
  expect(entries).toHaveLength(dangers.length + logs.length);
  for (const [index, { version, amplifier, reason, decisions }] of dangers.entries()) {
    const { title = '', content = '' } = entries[index] ?? {};
    expect(title).toMatch(/^Withdrawn as dangerous: /);
    expect(content).toContain(reason);
    for (const id of [version ?? amplifier, ...decisions.map((decision) => decision.id)]) {
      expect(content).toContain(`href="https://example.org/${id}/"`);
    }
  }
  const linked = entries.slice(dangers.length).map(({ link }) => link);
  expect(linked).toEqual(logs.map(({ id }) => `https://example.org/${id}/`));
});

test('each entry has a date, an identity of its own, the safety notice, and that its data are invented', () => {
  expect(new Set(entries.map(({ guid }) => guid)).size).toBe(entries.length);
  for (const { title, date, content } of entries) {
    expect(Number.isNaN(Date.parse(date)), title).toBe(false);
    expect(content, title).toMatch(/can kill, also long after/);
    expect(content, title).toMatch(/are invented/);
    expect(content, title).not.toMatch(/ASTRO|undefined|\[object|NaN|data-place/);
  }
});

test('a log’s entry has its question, its answer, its key figures with intervals and its chart', () => {
  for (const { id, data, keyFigures } of journal.logs) {
    const entry = entries.find(({ link }) => link === `https://example.org/${id}/`);
    const text = entry?.content.replaceAll(/<[^>]+>/g, '').replaceAll('&#38;', '&') ?? '';
    expect(text).toContain(data.question);
    expect(text).toContain(data.answer);
    for (const { title } of keyFigures) expect(text).toContain(title);
    const bounded = keyFigures.filter(({ figure }) => figure.low !== undefined);
    expect(entry?.content.match(/<li>[^<]*(\u00a0±|\u00a0\(−?\d)/gu)?.length ?? 0, id).toBe(bounded.length);
    const isCharted = readFileSync(join(site, id, 'index.html'), 'utf8').includes('class="chart-drawing"');
    expect(entry?.alternatives.length, id).toBe(isCharted ? 1 : 0);
  }
});

test('every address in the feed is in full and leads to a page, place or picture of the site', async () => {
  for (const { title, addresses, alternatives } of entries) {
    expect(addresses.length, title).toBeGreaterThan(1);
    for (const alternative of alternatives) expect(alternative.length, title).toBeGreaterThan(20);
    for (const address of addresses) {
      expect(address, title).toMatch(/^https:\/\/example\.org\//);
      expect(existsSync(fileOf(address)), address).toBe(true);
      const place = new URL(address).hash.slice(1);
      if (place !== '') expect(readFileSync(fileOf(address), 'utf8')).toContain(`id="${place}"`);
    }
  }
  const pictures = entries.flatMap(({ addresses }) =>
    addresses.filter((address) => address.endsWith('.png')),
  );
  expect(pictures.length).toBeGreaterThan(5);
  for (const picture of pictures) {
    expect((await sharp(fileOf(picture)).metadata()).format, picture).toBe('png');
  }
});
