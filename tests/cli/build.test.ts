import { spawnSync } from 'node:child_process';
import {
  existsSync,
  globSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { plainEnvironment } from '../support/command.ts';
import {
  type Files,
  log,
  settings,
  smallJournal,
  temporaryFolder,
  toneCsv,
  writeFiles,
} from '../support/journal.ts';
import { ran } from '../support/output.ts';
import { schemaFaults } from '../support/schemas.ts';

const mdxSettings = `${settings}mdx: true\n`;

/** A journal with a picture, a capture, a static file and both kinds of log. */
const journal: Files = {
  ...smallJournal,
  'journal.yaml': mdxSettings,
  'logs/first/index.md': log(
    'captures:\n  - { file: tone.csv, title: Tone }\nkeyFigures:\n  - { figure: thd, of: tone }\n',
    '::chart{capture="tone" kind="spectrum"}\n\n![The bench](bench.svg)\n\nSee [the second](../second/index.mdx) and the [plan](/plan.txt).\n',
  ),
  'logs/first/tone.csv': toneCsv(),
  'logs/first/bench.svg': '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"></svg>',
  'logs/second/index.mdx': log(
    '',
    "import Own from './Own.astro'\n\n<Own />\n\nA <sub>small</sub> word, $x^2$.\n",
  ),
  'logs/second/Own.astro': '<p>From a component of the journal.</p>\n',
  'static/plan.txt': 'plan\n',
  'sealed/2026-01-20-two.key.txt': 'order of a listening session\n',
  'listening/2026-01-20-two.key.txt': 'order of a listening session\n',
};

const pages = (out: string) =>
  globSync('**/*.html', { cwd: out })
    .map((file) => file.replaceAll('\\', '/'))
    .sort();
const read = (out: string, file: string) => readFileSync(join(out, file), 'utf8');
const ofJournal = (out: string) => pages(out).filter((page) => /^(logs|amplifiers)\/./.test(page));

const withoutAddress =
  'The address of the site is not stated (site: in journal.yaml, or --site), so that it has no feed, no sitemap and no pictures for link previews.';

/** What only a site that knows its address has. */
const forOthers = (out: string) =>
  globSync('**/{feed.xml,sitemap*.xml,card.png}', { cwd: out })
    .map((file) => file.replaceAll('\\', '/'))
    .sort();

/** A home page that says it was made here. */
const previous = '<meta name="generator" content="Quiescent">previous';

/** What lies beside a folder, hidden work folders included. */
const beside = (folder: string) => readdirSync(dirname(folder)).filter((name) => name !== basename(folder));

describe('build', () => {
  test('writes the site of a journal outside the project, and nothing into the project', async () => {
    const project = readdirSync('.');
    const folder = writeFiles(journal);
    const out = join(temporaryFolder(), 'site');
    expect(await ran('build', '--journal', folder, '--out', out)).toEqual({
      code: 0,
      result: '',
      notice: `${withoutAddress}\nNo problems. The site is in ${out}.`,
    });
    expect(forOthers(out)).toEqual([]);
    expect(ofJournal(out)).toEqual([
      'amplifiers/index.html',
      'amplifiers/tern/index.html',
      'amplifiers/tern/v1/index.html',
      'logs/first/index.html',
      'logs/first/tone/index.html',
      'logs/index.html',
      'logs/second/index.html',
    ]);
    const first = read(out, 'logs/first/index.html');
    expect(first).toContain('<svg');
    expect(first).toContain('alt="The bench"');
    expect(first).toContain('href="/logs/second/"');
    expect(first).toContain('href="/plan.txt"');
    expect(read(out, 'logs/second/index.html')).toMatch(
      /From a component of the journal\.[\s\S]*<sub>small<\/sub>[\s\S]*<msup>/,
    );
    expect(read(out, 'plan.txt')).toBe('plan\n');
    expect(read(out, 'logs/first/tone.csv')).toBe(journal['logs/first/tone.csv']);
    const published = globSync('**/*.{html,txt,csv,json}', { cwd: out });
    expect(published.filter((file) => read(out, file).includes('order of a listening'))).toEqual([]);
    expect(beside(out)).toEqual([]);
    expect(readdirSync('.')).toEqual(project);
    expect(readdirSync(folder).sort()).toEqual([
      '.quiescent',
      'amplifiers',
      'journal.yaml',
      'listening',
      'logs',
      'sealed',
      'static',
    ]);
  });

  test('with its address stated, a site has a feed, a sitemap and a picture for each page with a chart', async () => {
    const folder = writeFiles(journal);
    const out = join(temporaryFolder(), 'site');
    const address = ['--site', 'https://notes.example'];
    const { code, notice } = await ran('build', '--journal', folder, '--out', out, ...address);
    expect({ code, notice }).toEqual({ code: 0, notice: `No problems. The site is in ${out}.` });
    expect(forOthers(out)).toEqual([
      'card.png',
      'feed.xml',
      'logs/first/card.png',
      'logs/first/tone/card.png',
      'sitemap-0.xml',
      'sitemap-index.xml',
    ]);
    const first = read(out, 'logs/first/index.html');
    expect(first).toContain('<link rel="canonical" href="https://notes.example/logs/first/">');
    expect(first).toContain('content="https://notes.example/logs/first/card.png"');
    expect(read(out, 'feed.xml')).toContain('<link>https://notes.example/logs/first/</link>');
  });

  test('without an address, the package of a log says which of its captures stand in another folder', async () => {
    const declared = log('captures:\n  - { file: ../../bench/tone.csv, title: Tone }\n');
    const files = { ...smallJournal, 'logs/first/index.md': declared, 'bench/tone.csv': toneCsv() };
    const out = join(temporaryFolder(), 'site');
    expect(await ran('build', '--journal', writeFiles(files), '--out', out)).toMatchObject({ code: 0 });
    const of = (file: string) =>
      JSON.parse(read(out, file)) as {
        description: string;
        homepage?: string;
        resources: { path: string }[];
      };
    const first = of('logs/first/datapackage.json');
    expect(first.homepage).toBeUndefined();
    expect(first.resources.map(({ path }) => path)).toEqual(['figures.csv']);
    expect(first.description).toContain('only in the package of the whole journal: bench/tone.csv.');
    expect(of('datapackage.json').resources.map(({ path }) => path)).toEqual([
      'figures.csv',
      'bench/tone.csv',
    ]);
    expect(of('datapackage.json').description).not.toContain('whole journal');
  });

  test('does not mind a node_modules folder in the journal, and publishes nothing of it', async () => {
    const folder = writeFiles({ ...journal, 'node_modules/some-package/readme.md': '# Some package\n' });
    symlinkSync(resolve('node_modules/zod'), join(folder, 'node_modules/zod'));
    const out = join(folder, 'dist');
    expect(await ran('build', '--journal', folder, '--out', out)).toMatchObject({ code: 0 });
    expect(ofJournal(out)).toContain('logs/second/index.html');
    expect(pages(out).filter((page) => page.includes('package'))).toEqual([]);
  });

  test('of two journals in turn shows neither the pages nor the words of the other', async () => {
    const named = (name: string) => ({
      'journal.yaml': mdxSettings.replace('Bench notes', name),
      'amplifiers/tern/index.md': smallJournal['amplifiers/tern/index.md'] ?? '',
      [`logs/${name}/index.md`]: log('', `Only in ${name}.\n`),
      'logs/shared/index.mdx': log('', `Also only in ${name}.\n`),
    });
    const folders = ['larch', 'rowan'].map((name) => writeFiles(named(name)));
    const built = async (index: number) => {
      const out = join(temporaryFolder(), 'site');
      expect(await ran('build', '--journal', folders[index] ?? '', '--out', out)).toMatchObject({ code: 0 });
      const all = pages(out).map((page) => read(out, page));
      return { pages: ofJournal(out), text: all.join('\n') };
    };
    const [larch, rowan, again] = [await built(0), await built(1), await built(0)];
    expect(larch.pages).toContain('logs/larch/index.html');
    expect(rowan.pages).toContain('logs/rowan/index.html');
    expect(larch.text).toMatch(/Only in larch\.[\s\S]*Also only in larch\./);
    expect(larch.text).not.toContain('rowan');
    expect(rowan.text).toMatch(/Only in rowan\.[\s\S]*Also only in rowan\./);
    expect(rowan.text).not.toContain('larch');
    expect(again.pages).toEqual(larch.pages);
    expect(again.text).not.toContain('rowan');
  });

  test('puts a new site in the place of the previous one', async () => {
    const folder = writeFiles(smallJournal);
    const out = writeFiles({ 'site/index.html': previous, 'site/marker.txt': 'previous' });
    const site = join(out, 'site');
    expect(await ran('build', '--journal', folder, '--out', site)).toMatchObject({ code: 0 });
    expect(read(site, 'index.html')).toContain('Bench notes');
    expect(existsSync(join(site, 'marker.txt'))).toBe(false);
    expect(beside(site)).toEqual([]);
  });
});

describe('a build that fails leaves the previous site untouched', () => {
  /** Builds a journal over a site with a marker in it; answers with what was printed and what the folder holds. */
  async function over(files: Files) {
    const folder = writeFiles({ ...smallJournal, ...files });
    const site = join(writeFiles({ 'site/index.html': previous, 'site/marker.txt': 'untouched' }), 'site');
    const { code, result, notice } = await ran('build', '--journal', folder, '--out', site);
    const kept = [readdirSync(site), read(site, 'index.html'), read(site, 'marker.txt'), beside(site)];
    return { code, result, notice: notice.replaceAll(folder, 'JOURNAL'), kept };
  }
  const untouched = [['index.html', 'marker.txt'], previous, 'untouched', []];

  test('for a record with a fault', async () => {
    expect(await over({ 'logs/first/index.md': log('tags: hum\n') })).toEqual({
      code: 1,
      result: '',
      notice: `logs/first/index.md
  6:7  error  A list is expected here, but this is "hum".  [wrong-type]
    6 | tags: hum
      |       ^

JOURNAL: 1 error. No site was written.`,
      kept: untouched,
    });
  });

  test('for code of an .mdx log that throws', async () => {
    const { code, notice, kept } = await over({
      'journal.yaml': mdxSettings,
      'logs/second/index.mdx': log('', 'Text.\n\n{undefinedName.length}\n'),
    });
    expect({ code, notice, kept }).toEqual({
      code: 1,
      notice: `logs/second/index.mdx
  7:1  error  The site cannot be written: undefinedName is not defined.  [site]
    7 | Text.
      | ^

JOURNAL: 1 error. No site was written.`,
      kept: untouched,
    });
  });

  test('for a package that is not installed', async () => {
    const { code, notice, kept } = await over({
      'journal.yaml': mdxSettings,
      'logs/second/index.mdx': log('', "import Thing from 'not-installed'\n\n<Thing />\n"),
    });
    expect({ code, kept }).toEqual({ code: 1, kept: untouched });
    expect(notice).toMatch(
      /^logs\/second\/index\.mdx\n {2}7:1 {2}error {2}The site cannot be written: .*"not-installed" from "logs\/second\/index\.mdx"\. {2}\[site\]\n/,
    );
  });

  test('for a work folder that cannot be made', async () => {
    const { code, notice, kept } = await over({ '.quiescent': 'a file in its place' });
    expect({ code, kept }).toEqual({ code: 1, kept: untouched });
    expect(notice).toMatch(/^journal\.yaml\n {2}1:1 {2}error {2}The site cannot be written: /);
  });

  test('and the next build succeeds', async () => {
    const folder = writeFiles({
      ...smallJournal,
      'journal.yaml': mdxSettings,
      'logs/b/index.mdx': log('', '{no.x}\n'),
    });
    const out = join(temporaryFolder(), 'site');
    expect(await ran('build', '--journal', folder, '--out', out)).toMatchObject({ code: 1 });
    expect(existsSync(out)).toBe(false);
    writeFileSync(join(folder, 'logs/b/index.mdx'), log('', 'Mended.\n'));
    expect(await ran('build', '--journal', folder, '--out', out)).toMatchObject({ code: 0 });
    expect(read(out, 'logs/b/index.html')).toContain('Mended.');
  });
});

test('from another folder, npm run resolves paths against the caller and prints one document', () => {
  const caller = writeFiles(
    Object.fromEntries(Object.entries(smallJournal).map(([file, text]) => [`notes/${file}`, text])),
  );
  mkdirSync(join(caller, 'empty'));
  const npm = (...args: string[]) =>
    spawnSync('npm', ['--prefix', resolve('.'), 'run', '--silent', 'quiescent', '--', ...args], {
      cwd: caller,
      encoding: 'utf8',
      env: { ...plainEnvironment(), INIT_CWD: caller },
    });
  const sound = npm('check', '--journal', 'notes', '--json');
  expect(sound).toMatchObject({ status: 0, stderr: '' });
  expect(schemaFaults('check', JSON.parse(sound.stdout))).toEqual([]);
  const empty = npm('check', '--journal', 'empty');
  expect(empty).toMatchObject({ status: 1, stdout: '' });
  expect(empty.stderr).toMatch(/The folder has no journal\.yaml[\s\S]*\nempty: 1 error\.\n$/);
  expect(npm('check', '--jso')).toMatchObject({
    status: 2,
    stdout: '',
    stderr: 'quiescent: There is no option "--jso" here. Did you mean --json?\n',
  });
});
