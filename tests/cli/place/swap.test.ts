import { existsSync, lstatSync, mkdirSync, readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { mendSwap, swapIn } from '../../../src/cli/place/swap.ts';
import { temporaryFolder, writeFiles } from '../../support/journal.ts';

const mark = 'A build put this folder here while it replaced the site beside it. It can be deleted.\n';
/** No process has this number: Linux gives at most 2²² of them. */
const nobody = 2 ** 30;
const home = (folder: string) => readFileSync(join(folder, 'index.html'), 'utf8');

test('a finished site takes the place of the last one and leaves nothing beside it', async () => {
  const folder = writeFiles({
    'site/index.html': 'old',
    'site/gone/index.html': 'old',
    'made/index.html': 'new',
  });
  await swapIn(join(folder, 'made'), join(folder, 'site'));
  expect(home(join(folder, 'site'))).toBe('new');
  expect(readdirSync(folder)).toEqual(['site']);
  expect(readdirSync(join(folder, 'site'))).toEqual(['index.html']);
});

test('a site behind a link is replaced where it really is, and the link stays', async () => {
  const folder = writeFiles({ 'served/index.html': 'old', 'made/index.html': 'new' });
  symlinkSync(join(folder, 'served'), join(folder, 'site'));
  await swapIn(join(folder, 'made'), join(folder, 'site'));
  expect(lstatSync(join(folder, 'site')).isSymbolicLink()).toBe(true);
  expect(home(join(folder, 'served'))).toBe('new');
});

test('a site that cannot be finished leaves the last one as it was', async () => {
  const folder = writeFiles({ 'site/index.html': 'old' });
  await expect(swapIn(join(folder, 'made'), join(folder, 'site'))).rejects.toThrow('ENOENT');
  expect(home(join(folder, 'site'))).toBe('old');
  expect(readdirSync(folder)).toEqual(['site']);
});

test('a site that a killed build had laid aside is put back', async () => {
  const aside = `site.unfinished-${nobody}`;
  const folder = writeFiles({ [`${aside}/of-a-build`]: mark, [`${aside}/previous/index.html`]: 'old' });
  await mendSwap(join(folder, 'site'));
  expect(home(join(folder, 'site'))).toBe('old');
  expect(readdirSync(folder)).toEqual(['site']);
});

test('what a killed build left beside a whole site is taken away, the site untouched', async () => {
  const aside = `site.unfinished-${nobody}`;
  const folder = writeFiles({
    'site/index.html': 'whole',
    [`${aside}/of-a-build`]: mark,
    [`${aside}/previous/index.html`]: 'old',
    [`${aside}/next/half.html`]: 'ha',
  });
  mkdirSync(join(folder, `site.unfinished-${nobody + 1}`));
  await mendSwap(join(folder, 'site'));
  expect(home(join(folder, 'site'))).toBe('whole');
  expect(readdirSync(folder)).toEqual(['site']);
});

test('a folder without the mark, of a living process or of another site is left alone', async () => {
  const others = [
    `site.unfinished-${nobody}`,
    `site.unfinished-${process.ppid}`,
    `site-2.unfinished-${nobody}`,
  ];
  const [first = '', ...rest] = others;
  const folder = writeFiles({
    [`${first}/letter.txt`]: 'mine\n',
    ...Object.fromEntries(rest.map((name) => [`${name}/of-a-build`, mark])),
  });
  await mendSwap(join(folder, 'site'));
  expect(readdirSync(folder).sort()).toEqual([...others].sort());
  expect(existsSync(join(folder, 'site'))).toBe(false);
});

test('where nothing was built yet there is nothing to mend', async () => {
  await expect(mendSwap(join(temporaryFolder(), 'not', 'there'))).resolves.toBeUndefined();
});
