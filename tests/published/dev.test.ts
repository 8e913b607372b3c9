import { cpSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type LiveSite, startLive } from '../support/live.ts';
import { launchBrowser, visitPage } from '../support/visit.ts';

const folder = mkdtempSync(join(tmpdir(), 'quiescent-dev-'));
const log = 'logs/2026-01-18-first-sound';
const address = `/${log}/`;
let live: LiveSite;

beforeAll(async () => {
  cpSync('content', folder, { recursive: true, filter: (source) => !source.includes('.quiescent') });
  live = await startLive(folder);
  await live.page(address, (html) => html.includes('First sound'));
});

afterAll(async () => {
  await live.stop();
  rmSync(folder, { recursive: true, force: true });
});

const read = (file: string) => readFileSync(join(folder, file), 'latin1');
const write = (file: string, text: string) => writeFileSync(join(folder, file), text, 'latin1');
const edit = (file: string, change: (text: string) => string) => write(file, change(read(file)));

/** The text of a page above its content, once it holds what is looked for. */
const shows = (path: string, text: string) => live.page(path, (html) => html.includes(text));
/** What the page says that stands in the place of one that does not exist. */
const missing = '<h1>This page does not exist</h1>';
const isGone = (path: string) => live.page(path, (_html, status) => status === 404);

test('a page of the live site is dressed, and its browser has nothing to complain of', async () => {
  const browser = await launchBrowser();
  const { page, complaints } = await visitPage(browser, live.origin, address, { width: 1440 });
  const family = await page.evaluate(
    () => getComputedStyle(document.querySelector('h1') as Element).fontFamily,
  );
  await browser.close();
  expect(complaints).toEqual([]);
  expect(family).toContain('Source Serif');
});

test('the live site follows an edited log', async () => {
  edit(`${log}/index.md`, (text) => text.replace('title: First sound', 'title: Second sound'));
  expect(await shows(address, 'Second sound')).toContain('<h1>Second sound</h1>');
});

test('the live site follows a log that an editor puts in place by renaming', async () => {
  const file = `${log}/index.md`;
  write(`${log}/.index.md.new`, read(file).replace('title: Second sound', 'title: Third sound'));
  renameSync(join(folder, `${log}/.index.md.new`), join(folder, file));
  expect(await shows(address, 'Third sound')).toContain('<h1>Third sound</h1>');
});

test('the live site follows an edited capture', async () => {
  const path = `${address}heron-v1-response-1w/`;
  expect(await shows(path, '76 rows')).toContain('76 rows');
  edit(`${log}/heron-v1-response-1w.csv`, (text) => text.trimEnd().split('\n').slice(0, -4).join('\n'));
  expect(await shows(path, '72 rows')).toContain('72 rows');
});

test('the live site follows the title of the journal', async () => {
  edit('journal.yaml', (text) => text.replace(/^title: .*$/m, 'title: Birch bench'));
  expect(await shows('/', '<h1>Birch bench</h1>')).toContain('<h1>Birch bench</h1>');
});

test('a log that is added gets its page, and one that is removed loses it', async () => {
  const added = 'logs/2026-11-01-added';
  cpSync(join(folder, log), join(folder, added), { recursive: true });
  expect(await shows(`/${added}/`, 'Third sound')).toContain('<h1>Third sound</h1>');
  expect(await shows('/logs/', `${added}/`)).toContain(`${added}/`);
  rmSync(join(folder, added), { recursive: true });
  expect(await isGone(`/${added}/`)).toContain(missing);
});

test('a version under a new name has its page there, and what names the old one is an error until it is back', async () => {
  const [from, to] = ['amplifiers/heron/v1', 'amplifiers/heron/v9'];
  const isThere = (path: string) => live.page(path, (_html, status) => status === 200);
  const [, title = 'no title'] = /^title: (.*)$/m.exec(read(`${from}.md`)) ?? [];
  renameSync(join(folder, `${from}.md`), join(folder, `${to}.md`));
  const moved = await isThere(`/${to}/`);
  expect(moved).toContain(`<h1>${title}</h1>`);
  expect(moved).toContain('There is no version &#34;amplifiers/heron/v1&#34;');
  expect(await isGone(`/${from}/`)).toContain(missing);
  renameSync(join(folder, `${to}.md`), join(folder, `${from}.md`));
  const back = await isThere(`/${from}/`);
  expect(back).toContain(`<h1>${title}</h1>`);
  expect(back).not.toContain('open-problems');
  expect(await isGone(`/${to}/`)).toContain(missing);
});

test('a link in MDX leads to a record as soon as there is one', async () => {
  const page = 'logs/2026-02-28-a-driver-that-cancels';
  const target = 'parts/later';
  edit(`${page}/index.mdx`, (text) => `${text}\nSee [what came later](../../${target}.md).\n`);
  expect(await shows(`/${page}/`, 'dangling-link')).toContain('what came later');
  write(`${target}.md`, '---\ntitle: Later\nkind: tube\n---\n');
  expect(await shows(`/${page}/`, `href="/${target}/"`)).not.toContain('dangling-link');
});

test('an error appears in an open page with its place and hint over the page as it was, and goes when mended', async () => {
  const browser = await launchBrowser();
  const { page } = await visitPage(browser, live.origin, address, { width: 1440 });
  edit(`${log}/index.md`, (text) => text.replace('date: 2026-01-18', 'date: 2026-13-18'));
  const notice = page.locator('.open-problems');
  await notice.waitFor({ timeout: 20_000 });
  const told = await notice.textContent();
  expect(told).toContain(`${log}/index.md`);
  expect(told).toContain('3:7 "2026-13-18" is not a date. date');
  expect(told).toContain('3 | date: 2026-13-18');
  expect(told).toContain('Write year, month and day, for example 2026-02-07.');
  expect(await page.locator('h1').textContent()).toBe('Third sound');
  expect(live.printed()).toMatch(/index\.md\n {2}3:7 {2}error {2}"2026-13-18" is not a date\./);
  edit(`${log}/index.md`, (text) => text.replace('date: 2026-13-18', 'date: 2026-01-18'));
  await notice.waitFor({ state: 'detached', timeout: 20_000 });
  await browser.close();
  expect(live.printed()).toContain(`mended: ${log}/index.md:3:7 "2026-13-18" is not a date.`);
});

test('while journal.yaml cannot be read the last good site stays below the error', async () => {
  edit('journal.yaml', (text) => `${text}odd: [\n`);
  expect(await shows('/', 'journal.yaml</h3>')).toContain('<h1>Birch bench</h1>');
  edit('journal.yaml', (text) => text.replace('odd: [\n', ''));
  expect(await live.page('/', (html) => !html.includes('open-problems'))).not.toContain('open-problems');
});

test('a page whose making fails says why in its place, and comes back when that is mended', async () => {
  const page = 'logs/2026-11-02-code';
  const text = read(`${log}/index.md`).replace(/\ncaptures:[\s\S]*?\n---\n/, '\n---\n');
  const lines = text.split('\n---\n')[0];
  cpSync(join(folder, log), join(folder, page), { recursive: true });
  rmSync(join(folder, page, 'index.md'));
  write(`${page}/index.mdx`, `${lines}\n---\n\n{(() => { throw new Error('the code <b>fails</b>'); })()}\n`);
  const html = await shows(`/${page}/`, 'the code &#60;b');
  expect(html).toContain('<h1>This page cannot be shown</h1>');
  expect(html).toContain('the code &#60;b&#62;fails&#60;/b&#62;.');
  expect(html).toContain(`<h3>${page}/index.mdx</h3>`);
  expect(await live.prints(`The page /${page}/ cannot be shown: the code <b>fails</b>.`)).toBe(true);
  write(`${page}/index.mdx`, `${lines}\n---\n\nThe code is gone.\n`);
  expect(await shows(`/${page}/`, 'The code is gone.')).not.toContain('open-problems');
});

test('a live site begins in a folder without a journal, says what is missing, and follows when it is there', async () => {
  const empty = mkdtempSync(join(tmpdir(), 'quiescent-dev-empty-'));
  const other = await startLive(empty);
  const first = await other.page('/logs/', (html) => html.includes('open-problems'));
  expect(first).toContain('<h1>This page cannot be shown</h1>');
  expect(first).toContain('<h3>journal.yaml</h3>');
  writeFileSync(join(empty, 'journal.yaml'), 'title: Begun\nauthor: The bench\n');
  expect(await other.page('/', (html) => html.includes('<h1>Begun'))).toContain('<h1>Begun</h1>');
  expect(await other.stop()).toBe(0);
  rmSync(empty, { recursive: true });
});

test('two live sites of one journal follow it both', async () => {
  const other = await startLive(folder);
  await other.page(address, (html) => html.includes('Third sound'));
  edit(`${log}/index.md`, (text) => text.replace('title: Third sound', 'title: Fourth sound'));
  expect(await other.page(address, (html) => html.includes('Fourth sound'))).toContain(
    '<h1>Fourth sound</h1>',
  );
  expect(await other.stop()).toBe(0);
  edit(`${log}/index.md`, (text) => text.replace('title: Fourth sound', 'title: Fifth sound'));
  expect(await shows(address, 'Fifth sound')).toContain('<h1>Fifth sound</h1>');
});

test('a port that is in use is told with one that is free, and nothing else is begun', async () => {
  const { port } = new URL(live.origin);
  const { dev } = await import('../../src/cli/commands/dev.ts');
  const told: string[] = [];
  const output = { result: () => undefined, notice: (text: string) => void told.push(text) };
  expect(await dev({ journal: dirname(folder), port: Number(port) }, output)).toBe(1);
  expect(told.join('\n')).toMatch(
    /^quiescent: Port \d+ is in use by another program\. Port \d+ is free: add --port \d+\.$/,
  );
});
