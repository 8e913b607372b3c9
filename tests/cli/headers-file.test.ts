import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { writeHeadersFile } from '../../src/cli/headers-file.ts';

/** A folder with a page, a folder and files of a site; its headers file as it is written for a base path. */
async function written(base: string, own?: string): Promise<string> {
  const site = mkdtempSync(join(tmpdir(), 'quiescent-headers-'));
  mkdirSync(join(site, 'logs'));
  for (const name of ['index.html', '404.html', 'feed.xml']) writeFileSync(join(site, name), '');
  if (own !== undefined) writeFileSync(join(site, '_headers'), own);
  await writeHeadersFile(site, base);
  const text = readFileSync(join(site, '_headers'), 'utf8');
  rmSync(site, { recursive: true });
  return text;
}

const addressesOf = (text: string) => text.split('\n').filter((line) => line.startsWith('/'));

test('the headers file names every address, the top of the site, its pages there and its folders', async () => {
  expect(addressesOf(await written('/'))).toEqual(['/*', '/', '/404.html', '/logs/*']);
  expect(addressesOf(await written('/bench/'))).toEqual([
    '/bench/*',
    '/bench/',
    '/bench/404.html',
    '/bench/logs/*',
  ]);
});

test('what a journal has in a headers file of its own follows', async () => {
  const own = '/photos/*\n  Cache-Control: max-age=86400\n';
  expect(await written('/', own)).toBe(`${await written('/')}\n${own}`);
});
