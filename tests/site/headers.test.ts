import { expect, test } from 'vitest';
import { headersText } from '../../src/site/headers.ts';
import { headersFor, readHeaders } from '../support/headers.ts';

const names = ['assets', 'logs', 'search', 'my files', '404.html'];
const rulesUnder = (base: string) => readHeaders(headersText({ base, names }));
const policiesOf = (path: string, base: string) =>
  headersFor(path, rulesUnder(base)).get('content-security-policy')?.split(', ') ?? [];

const allowsCompiled = (policy: string) => policy.includes("'wasm-unsafe-eval'");

test.each(['/', '/bench/notes/'])('below %s compiled code may run in the search alone', (base) => {
  const strict = ['', '404.html', 'logs/', 'logs/one/two/', 'assets/a.js', 'my%20files/x.html'];
  for (const path of strict)
    expect(
      policiesOf(base + path, base).some((one) => !allowsCompiled(one)),
      path,
    ).toBe(true);
  for (const path of ['search/', 'search/index/pagefind.js']) {
    expect(policiesOf(base + path, base)).toHaveLength(1);
    expect(policiesOf(base + path, base).every(allowsCompiled)).toBe(true);
  }
});

test('every address, known or not, may not be framed, nor its content guessed', () => {
  for (const path of ['/', '/logs/', '/search/', '/no-such-page/']) {
    const headers = headersFor(path, rulesUnder('/'));
    for (const policy of policiesOf(path, '/')) {
      expect(policy).toContain("default-src 'none'");
      expect(policy).toContain("frame-ancestors 'none'");
      expect(policy).not.toContain('unsafe-inline');
    }
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('referrer-policy')).toBe('strict-origin-when-cross-origin');
  }
});

test('the same site gives the same file, in whatever order its folders are listed', () => {
  expect(headersText({ base: '/', names: names.toReversed() })).toBe(headersText({ base: '/', names }));
});
