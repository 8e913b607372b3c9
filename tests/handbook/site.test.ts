import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { quiescent } from '../support/command.ts';
import { pagesOf } from '../support/demo-site.ts';
import { htmlFaults } from '../support/html.ts';
import { accessibilityFaults, type SiteInBrowser, siteInBrowser } from '../support/visit.ts';

const folder = mkdtempSync(join(tmpdir(), 'quiescent-handbook-'));
const site = join(folder, 'site');
let visitor: SiteInBrowser;

beforeAll(async () => {
  const { status, stderr } = quiescent('build', '--journal', 'shared/handbook', '--out', site);
  expect(stderr).toMatch(/No problems\. The site is in/);
  expect(status).toBe(0);
  visitor = await siteInBrowser(site);
});

afterAll(async () => {
  await visitor.close();
  rmSync(folder, { recursive: true, force: true });
});

const htmlOf = (page: string) =>
  readFileSync(join(site, page.endsWith('/') ? `${page}index.html` : page), 'utf8');

test('every page of the handbook is valid HTML, carries the safety notice and calls nothing safe', async () => {
  const pages = pagesOf(site);
  expect(pages.length).toBeGreaterThan(20);
  for (const page of pages) {
    expect(await htmlFaults(htmlOf(page), page)).toEqual([]);
    expect(htmlOf(page), page).toMatch(/class="safety-notice".*can kill, also long after/s);
    expect(htmlOf(page), page).not.toMatch(/<style|\sstyle="|\bsafe(ly)?\b/i);
  }
});

test.each(['/', '/pages/', '/pages/from-an-empty-folder/', '/pages/reference-version/'])(
  '%s can be read by everybody, on a phone too, in the colours that the journal chose',
  async (path) => {
    for (const colorScheme of ['light', 'dark'] as const) {
      const { page, complaints, close } = await visitor.open(path, { width: 390, colorScheme });
      expect(await accessibilityFaults(page)).toEqual([]);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(390);
      const link = await page.evaluate("getComputedStyle(document.querySelector('main a')).color");
      expect(link).toBe(colorScheme === 'light' ? 'rgb(31, 75, 122)' : 'rgb(156, 196, 236)');
      expect(complaints).toEqual([]);
      await close();
    }
  },
);

test('paper is printed in black, whatever the colours of the screen', async () => {
  const { page, close } = await visitor.open('/pages/from-an-empty-folder/');
  await page.emulateMedia({ media: 'print' });
  expect(await page.evaluate("getComputedStyle(document.querySelector('main a')).color")).toBe(
    'rgb(0, 0, 0)',
  );
  await close();
});

test('navigation, lists and foot have the words of the journal, and lists that are empty are left out', () => {
  const html = htmlOf('/');
  const entries = [...html.matchAll(/<nav aria-label="Main">.*?<\/nav>/gs)].flatMap(([nav]) =>
    [...nav.matchAll(/<a [^>]*>([^<]*)<\/a>/g)].map(([, name]) => name?.trim()),
  );
  expect(entries).toEqual(['Tutorial', 'Contents', 'Methods', 'Safety', 'Search']);
  expect(html).toMatch(/<h2>Contents<\/h2>/);
  expect(html).not.toMatch(/<h2>(Latest logs|Amplifiers)<\/h2>/);
  expect(htmlOf('/pages/')).toMatch(/<h1>Contents<\/h1>/);
  expect(htmlOf('/pages/keep-a-decision/')).toMatch(
    /aria-label="Where this page stands">.*?>Contents<\/a>.*<footer.*Every command and every file/s,
  );
});

test('the first page lists the handbook by its groups, in order', () => {
  const headings = [...htmlOf('/').matchAll(/<h([34])>(.*?)<\/h\1>/gs)].map(
    ([, level, inner = '']) => `${level} ${inner.replaceAll(/<[^>]*>/g, '').trim()}`,
  );
  expect(headings.slice(0, 3)).toEqual([
    '3 From an empty folder to a published page',
    '3 How to',
    '4 Declare an odd CSV file',
  ]);
});
