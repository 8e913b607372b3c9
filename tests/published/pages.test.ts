import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, inject, test } from 'vitest';
import { pagesOf } from '../support/demo-site.ts';
import { htmlFaults } from '../support/html.ts';

const site = inject('site');
const pages = pagesOf(site);
const htmlOf = (page: string) =>
  readFileSync(join(site, page.endsWith('/') ? `${page}index.html` : page), 'utf8');
const textOf = (html: string) =>
  html
    .replaceAll(/<(script|style)[\s\S]*?<\/\1>/g, ' ')
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll(/\s+/g, ' ');

describe.each(pages)('%s', (page) => {
  const html = htmlOf(page);

  test('carries the safety notice ahead of its content', () => {
    const notice = html.indexOf('class="safety-notice"');
    expect(notice).toBeGreaterThan(html.indexOf('<h1'));
    expect(textOf(html.slice(notice))).toMatch(/can kill, also long after it is switched off/);
    expect(textOf(html.slice(notice))).toMatch(/local codes.*licensed or qualified people/);
    const before = textOf(html.slice(html.indexOf('</h1>'), notice));
    expect(before.length, 'nothing long stands between title and notice').toBeLessThan(400);
  });

  test('calls nothing safe', () => {
    expect(textOf(html)).not.toMatch(/\bsafe(ly)?\b/i);
  });

  test('carries no inline script or style, data blocks apart, and asks no other host', () => {
    expect(html).not.toMatch(
      /<style|\sstyle="|<script(?! type="application\/ld\+json"|[^>]*src=)|\son[a-z]+="/,
    );
    expect(html).not.toMatch(/(?:src|href)="https?:\/\/(?!example\.org)/);
  });

  test('is valid HTML', async () => {
    expect(await htmlFaults(html, page)).toEqual([]);
  });
});

test('invented data are marked on every page that shows captures', () => {
  const shown = pages.filter((page) => /data-capture|class="chart"|key-figures/.test(htmlOf(page)));
  expect(shown.length).toBeGreaterThan(10);
  for (const page of shown) expect(textOf(htmlOf(page)), page).toMatch(/are invented/);
});
