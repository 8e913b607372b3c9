import { expect, test } from 'vitest';
import { siteAddressFault } from '../../src/journal/publishing/site-address.ts';
import { problemsOf, settings } from '../support/journal.ts';

test.each(['https://example.org', 'http://example.org/', 'https://notes.example.org:8080'])(
  '%s is the address of a site',
  (text) => {
    expect(siteAddressFault(text)).toBeNull();
  },
);

test.each([
  'example.org',
  'ftp://example.org',
  'https://',
  'https://example.org/?a',
  'https://example.org/#a',
])('%s is not', (text) => {
  expect(siteAddressFault(text)).not.toBeNull();
});

test('a path in the address is refused at its place, with where it belongs', async () => {
  const source = `${settings}site: https://example.org/bench\n`;
  expect(await problemsOf({ 'journal.yaml': source })).toBe(
    '\njournal.yaml:3:7 error site-address\n' +
      '  "https://example.org/bench" says more than where the site is: a path belongs to the command that builds it.\n' +
      '  Write https://example.org here, and build with --base /bench/.\n',
  );
});
