import { expect, test } from 'vitest';
import { problemsOf, settings } from '../support/journal.ts';

test('a licence has a short name and an address', async () => {
  const source = `${settings}licence: { name: CC-BY-4.0, address: https://creativecommons.org/licenses/by/4.0/ }\n`;
  expect(await problemsOf({ 'journal.yaml': source })).toBe('\n\n');
});

test('a licence with anything else is refused at its place', async () => {
  const source = `${settings}licence:\n  name: Attribution please\n  address: creativecommons.org\n`;
  expect(await problemsOf({ 'journal.yaml': source })).toBe(
    '\njournal.yaml:4:9 error licence\n' +
      '  "Attribution please" is not the short name of a licence.\n' +
      '  Write letters, digits, dots and hyphens, for example CC-BY-4.0.\n' +
      'journal.yaml:5:12 error licence\n' +
      '  "creativecommons.org" is not an address on the web.\n' +
      '  Write where its text stands, for example https://creativecommons.org/licenses/by/4.0/.\n',
  );
});
