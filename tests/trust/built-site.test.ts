import { globSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { quiescent } from '../support/command.ts';
import { readCsv } from '../support/csv.ts';
import { pagesOf } from '../support/demo-site.ts';
import { writeFiles } from '../support/journal.ts';
import { type SiteInBrowser, siteInBrowser } from '../support/visit.ts';
import { formula, hostileJournal, ran } from './hostile-journal.ts';

const folder = mkdtempSync(join(tmpdir(), 'quiescent-trust-'));
const site = join(folder, 'site');
let opened: SiteInBrowser | null = null;
let pages: string[] = [];

beforeAll(async () => {
  writeFiles(hostileJournal, join(folder, 'journal'));
  const { status, stderr } = quiescent('build', '--journal', join(folder, 'journal'), '--out', site);
  expect(status, stderr).toBe(0);
  pages = pagesOf(site);
  opened = await siteInBrowser(site);
}, 300_000);

afterAll(async () => {
  await opened?.close();
  rmSync(folder, { recursive: true, force: true });
});

const textOf = (file: string) => readFileSync(join(site, file), 'utf8');

test('no page of a journal whose every text is an attack runs it, opens a dialog, or asks for anything outside', async () => {
  expect(pages.length).toBeGreaterThan(15);
  for (const path of pages) {
    const visited = await opened?.open(path, { width: 1280 });
    if (!visited) throw new Error('The site is not open.');
    const { page, complaints, close } = visited;
    const dialogs: string[] = [];
    page.on('dialog', (dialog) => {
      dialogs.push(dialog.message());
      void dialog.dismiss();
    });
    const found = await page.evaluate(`({
      ran: ${ran} ?? null,
      handlers: [...document.querySelectorAll('*')].flatMap((one) => one.getAttributeNames().filter((name) => name.startsWith('on'))),
      scripts: [...document.scripts].filter((one) => one.type !== 'application/ld+json' && !one.src).length,
      frames: document.querySelectorAll('iframe, object, embed').length,
      links: [...document.querySelectorAll('[href], [src]')]
        .map((one) => one.getAttribute('href') ?? one.getAttribute('src'))
        .filter((address) => /^\\s*(?:javascript|vbscript|data:text)/i.test(address)),
    })`);
    expect({ path, found, dialogs, complaints }).toEqual({
      ...{ path, dialogs: [], complaints: [] },
      found: { ran: null, handlers: [], scripts: 0, frames: 0, links: [] },
    });
    await close();
  }
}, 300_000);

describe('what is read by machines', () => {
  test('data blocks for search engines end where they should, and hold the text as it was written', () => {
    const html = textOf('logs/first/tone/index.html');
    const blocks = [...html.matchAll(/<script type="application\/ld\+json">(.*?)<\/script>/gs)];
    expect(blocks.length).toBeGreaterThan(0);
    for (const [, block = ''] of blocks) {
      expect(block).not.toContain('<');
      expect(JSON.stringify(JSON.parse(block))).toContain(`</script><script>${ran}=2`);
    }
  });

  test('the feed and the sitemap are well-formed XML without elements of the texts', () => {
    for (const file of ['feed.xml', 'sitemap-0.xml']) {
      const xml = textOf(file);
      expect(xml, file).not.toMatch(/<(?:script|img|svg|iframe|link rel)/);
    }
  });

  test('tables of figures begin no cell with a formula; captures and lists of parts are published as they are', () => {
    for (const file of globSync('**/figures.csv', { cwd: site })) {
      const rows = readCsv(textOf(file));
      expect(rows.length, file).toBeGreaterThan(0);
      const cells = rows.flatMap((row) => Object.values(row));
      expect(
        cells.filter((cell) => /^[\s=+@]|^-(?!\d)/.test(cell)),
        file,
      ).toEqual([]);
    }
    const parts = textOf('amplifiers/tern/parts.csv');
    expect(parts).toBe(hostileJournal['amplifiers/tern/parts.csv']);
    expect(parts).toContain(formula.replaceAll('"', '""'));
  });

  test('every page has a content policy that allows no script of its own in it', () => {
    for (const file of globSync('**/*.html', { cwd: site })) {
      expect(textOf(file), file).toMatch(/http-equiv="content-security-policy"[^>]*script-src 'self'/i);
    }
  });
});
