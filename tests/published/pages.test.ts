import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { HtmlValidate } from 'html-validate';
import { describe, expect, inject, test } from 'vitest';
import { pagesOf } from '../support/demo-site.ts';

const site = inject('site');
const pages = pagesOf(site);
const htmlOf = (page: string) =>
  readFileSync(join(site, page.endsWith('/') ? `${page}index.html` : page), 'utf8');
const textOf = (html: string) =>
  html
    .replaceAll(/<(script|style)[\s\S]*?<\/\1>/g, ' ')
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll(/\s+/g, ' ');

const validator = new HtmlValidate({
  extends: ['html-validate:recommended'],
  rules: {
    'long-title': 'off',
    'no-inline-style': 'error',
    'no-raw-characters': 'off',
    'no-trailing-whitespace': 'off',
    'void-style': 'off',
    'attribute-boolean-style': 'off',
    'attribute-empty-style': 'off',
    'prefer-native-element': 'off',
    'doctype-style': 'off',
    'tel-non-breaking': 'off',
  },
});

test('the demo site has every kind of page', () => {
  const kinds = [
    /^\/$/,
    /^\/404\.html$/,
    /^\/safety\/$/,
    /^\/methods\/$/,
    /^\/logs\/$/,
    /^\/logs\/[^/]+\/$/,
    /^\/logs\/[^/]+\/[^/]+\/$/,
    /^\/amplifiers\/$/,
    /^\/amplifiers\/[^/]+\/$/,
    /^\/amplifiers\/[^/]+\/[^/]+\/$/,
    /^\/comparisons\/$/,
    /^\/comparisons\/[^/]+\/$/,
  ];
  for (const kind of kinds)
    expect(
      pages.filter((page) => kind.test(page)),
      String(kind),
    ).not.toHaveLength(0);
});

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
    const report = await validator.validateString(html, page);
    const messages = report.results.flatMap((result) =>
      result.messages.map(({ line, column, message, ruleId }) => `${line}:${column} ${message} (${ruleId})`),
    );
    expect(messages).toEqual([]);
  });
});

test('invented data are marked on every page that shows captures', () => {
  const shown = pages.filter((page) => /data-capture|class="chart"|key-figures/.test(htmlOf(page)));
  expect(shown.length).toBeGreaterThan(10);
  for (const page of shown) expect(textOf(htmlOf(page)), page).toMatch(/are invented/);
});
