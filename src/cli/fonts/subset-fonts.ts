import { glob, readFile, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { keepOnly } from '../../site/kept-files.ts';
import { type RenewedSheet, renewedPage } from './renewed-page.ts';
import { renewSheet } from './renewed-sheet.ts';
import { siteCharacters } from './site-characters.ts';

/**
 * Leaves in the fonts of a built site what its pages are written with; a face without a character of the site goes.
 * Fonts and style sheets are named by their new content, and pages follow. `work` keeps fonts for the next build.
 */
export async function subsetFonts(site: string, work: string): Promise<void> {
  const files = await filesOf(site);
  const characters = await siteCharacters(files);
  const folder = path.join(work, 'fonts');
  const sheets: RenewedSheet[] = [];
  for (const file of files.filter((name) => isBuiltSheet(path.relative(site, name)))) {
    const sheet = await renewSheet(file, { characters, folder });
    if (sheet) sheets.push(sheet);
  }
  for (const file of files.filter((name) => name.endsWith('.html'))) await renewPage(file, sheets);
  for (const file of sheets.flatMap(({ outdated }) => outdated)) await rm(file, { force: true });
  await keepOnly(folder, new Set(sheets.flatMap(({ kept }) => kept)));
}

/** What a journal publishes as it is keeps its names and its fonts. */
const isBuiltSheet = (file: string) => path.dirname(file) === 'assets' && file.endsWith('.css');

async function filesOf(site: string): Promise<string[]> {
  const found: string[] = [];
  for await (const file of glob('**/*.{html,css,js,json}', { cwd: site })) found.push(path.join(site, file));
  return found.sort();
}

async function renewPage(file: string, sheets: readonly RenewedSheet[]): Promise<void> {
  const html = await readFile(file, 'utf8');
  const renewed = renewedPage(html, sheets);
  if (renewed !== html) await writeFile(file, renewed);
}
