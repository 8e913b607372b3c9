import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import subsetFont from 'subset-font';
import { describe, expect, test } from 'vitest';
import { subsetFonts } from '../../../src/cli/fonts/subset-fonts.ts';
import { temporaryFolder } from '../../support/journal.ts';

const { resolve } = createRequire(import.meta.url);
const fonts = {
  serif: '@fontsource-variable/source-serif-4/files/source-serif-4-latin-wght-normal.woff2',
  greek: '@fontsource/ibm-plex-sans/files/ibm-plex-sans-greek-400-normal.woff2',
  cyrillic: '@fontsource/ibm-plex-sans/files/ibm-plex-sans-cyrillic-400-normal.woff2',
  maths: '@fontsource/noto-sans-math/files/noto-sans-math-latin-400-normal.woff2',
};

const rule = (family: string, name: string, more: string) =>
  `@font-face{font-family:${family};src:url(/assets/${name}.00000000.woff2)format("woff2");${more}}`;
const sheet = [
  rule('Serif', 'serif', 'font-weight:400 700;unicode-range:U+??,U+2000-206F'),
  rule('Sans', 'greek', 'unicode-range:U+370-3FF'),
  rule('Sans', 'cyrillic', 'unicode-range:U+400-45F'),
  rule('Noto Sans Math', 'maths', 'font-weight:400'),
].join('');

const page = `<html><head><link rel="stylesheet" href="/assets/Base.00000000.css"></head><body><p>470 µF, 8 Ω</p>
  <math><msqrt><mi>a</mi></msqrt></math></body></html>`;

/** A built site of one page with its fonts, and the folder that keeps fonts for the next build. */
function builtSite(body = page) {
  const folder = temporaryFolder();
  const [site, work] = [join(folder, 'site'), join(folder, 'work')];
  mkdirSync(join(site, 'assets'), { recursive: true });
  for (const [name, file] of Object.entries(fonts))
    copyFileSync(resolve(file), join(site, 'assets', `${name}.00000000.woff2`));
  writeFileSync(join(site, 'assets', 'Base.00000000.css'), sheet);
  writeFileSync(join(site, 'index.html'), body);
  return { site, work };
}

const assets = (site: string) => readdirSync(join(site, 'assets')).sort();
const fontOf = (site: string, name: string) =>
  readFileSync(join(site, 'assets', assets(site).find((file) => file.startsWith(`${name}.`)) ?? ''));

/** The tables of a font by name. @source OpenType 1.9, organization of a font file */
async function tablesOf(woff2: Buffer): Promise<Map<string, Buffer>> {
  const font = await subsetFont(woff2, '', { targetFormat: 'truetype', keepAllGlyphs: true });
  return new Map(
    Array.from({ length: font.readUInt16BE(4) }, (_, index) => {
      const at = 12 + 16 * index;
      const offset = font.readUInt32BE(at + 8);
      return [
        font.toString('latin1', at, at + 4),
        font.subarray(offset, offset + font.readUInt32BE(at + 12)),
      ];
    }),
  );
}

describe('fonts of a built site', () => {
  test('hold what the site is written with, and keep what formulas are set by', async () => {
    const { site, work } = builtSite();
    const whole = await tablesOf(fontOf(site, 'maths'));
    await subsetFonts(site, work);
    const maths = await tablesOf(fontOf(site, 'maths'));
    expect(maths.get('MATH')?.length).toBeGreaterThan(100);
    // OpenType 1.9, table maxp: number of glyphs at byte 4. One letter and one root, which has parts to be built of.
    const glyphs = (tables: Map<string, Buffer>) => tables.get('maxp')?.readUInt16BE(4) ?? 0;
    expect(glyphs(maths)).toBeGreaterThan(4);
    expect(glyphs(maths)).toBeLessThan(glyphs(whole) / 20);
    const serif = await tablesOf(fontOf(site, 'serif'));
    // OpenType 1.9, table fvar: the first axis begins at the offset in bytes 4 and 5, its least and greatest values
    // 4 and 12 bytes on, as 16.16 numbers.
    const fvar = serif.get('fvar') ?? Buffer.alloc(20);
    const axis = fvar.readUInt16BE(4);
    expect([fvar.readInt32BE(axis + 4) / 65536, fvar.readInt32BE(axis + 12) / 65536]).toEqual([400, 700]);
    expect(serif.get('GPOS')?.includes('kern')).toBe(true);
    expect(serif.get('GSUB')?.includes('frac')).toBe(false);
  });

  test('are named by content together with their sheet, and a face without a letter of the site goes', async () => {
    const { site, work } = builtSite();
    await subsetFonts(site, work);
    const files = assets(site);
    expect(files.map((file) => file.replace(/\.\w{8}\./, '.'))).toEqual([
      'Base.css',
      'greek.woff2',
      'maths.woff2',
      'serif.woff2',
    ]);
    expect(files.filter((file) => file.includes('00000000'))).toEqual([]);
    const css = readFileSync(join(site, 'assets', files[0] ?? ''), 'utf8');
    expect(css).not.toContain('U+400');
    for (const [file] of css.matchAll(/[\w.]+\.woff2/g)) expect(files).toContain(file);
    const html = readFileSync(join(site, 'index.html'), 'utf8');
    expect(html).toContain(`href="/assets/${files[0]}"`);
    expect(html).toMatch(/as="font"[^>]*href="\/assets\/serif\.[^>]*crossorigin>.*rel="stylesheet"/);
  });

  test('come out the same, cut anew or kept from an earlier build', async () => {
    const [first, second] = [builtSite(), builtSite()];
    await subsetFonts(first.site, first.work);
    await subsetFonts(second.site, second.work);
    const contents = (site: string) =>
      assets(site).map((file) => readFileSync(join(site, 'assets', file)).toString('base64'));
    expect(assets(second.site)).toEqual(assets(first.site));
    expect(contents(second.site)).toEqual(contents(first.site));
    const again = builtSite();
    await subsetFonts(again.site, first.work);
    expect(contents(again.site)).toEqual(contents(first.site));
  });

  test('that a site does not have any more are not kept', async () => {
    const { site, work } = builtSite();
    await subsetFonts(site, work);
    const before = readdirSync(join(work, 'fonts'));
    const later = builtSite('<link rel="stylesheet" href="/assets/Base.00000000.css"><p>é</p>');
    await subsetFonts(later.site, work);
    const after = readdirSync(join(work, 'fonts'));
    // Of three fonts the Greek one is as before, the one for text has a letter more, and formulas are gone.
    expect([before.length, after.length, after.filter((file) => before.includes(file)).length]).toEqual([
      3, 2, 1,
    ]);
  });

  test('of sheets that a journal publishes as they are stay as they are', async () => {
    const { site, work } = builtSite();
    writeFileSync(join(site, 'own.css'), sheet);
    await subsetFonts(site, work);
    expect(readFileSync(join(site, 'own.css'), 'utf8')).toBe(sheet);
    expect(existsSync(join(site, 'index.html'))).toBe(true);
  });
});
