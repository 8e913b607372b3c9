import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { commands } from '../../src/cli/usage.ts';
import { schemaOf } from '../../src/journal/schemas/index.ts';
import { keyTables } from '../../src/packing/key-tables.ts';
import { referencePages } from '../../src/packing/reference-pages.ts';
import { headersText } from '../../src/site/headers.ts';
import { blocksOf } from './blocks.ts';

const folder = 'shared/handbook/pages';
const made = referencePages();

test('the reference in the handbook is current; `npm run schemas` writes it', () => {
  const committed = readdirSync(folder)
    .filter((file) => file.startsWith('reference-'))
    .map((file) => [file, readFileSync(join(folder, file), 'utf8')]);
  expect(Object.fromEntries(committed)).toEqual(made);
});

test('the reference has every kind of record and every command', () => {
  for (const kind of Object.keys(schemaOf)) expect(made).toHaveProperty([`reference-${kind}.md`]);
  for (const name of Object.keys(commands))
    expect(made['reference-commands.md']).toMatch(new RegExp(`^## ${name}$`, 'm'));
});

describe('a table of keys', () => {
  const table = keyTables({
    properties: {
      load: { title: 'resistance', description: 'Load at the output: `8 Ω`; left out, that of the version.' },
      harmonics: { title: 'whole number', description: 'Highest harmonic counted: `10` (default).' },
      state: { enum: ['open', 'decided'], description: '`open` or `decided`.' },
      mark: { enum: [',', '\t', 'a|b'], default: ',' },
      band: { prefixItems: [{ title: 'frequency' }, { title: 'frequency' }] },
      stages: {
        items: {
          oneOf: [
            { properties: { kind: { const: 'RC' }, bias: { properties: {} } }, required: ['kind'] },
            { properties: { kind: { const: 'LC' } }, required: ['kind'] },
          ],
        },
      },
    },
    required: ['load'],
  });

  test.each([
    ['| `load` | resistance | yes | Load at the output; left out, that of the version. | `8 Ω` |'],
    ['| `harmonics` | whole number | no | Highest harmonic counted; left out, `10`. |  |'],
    ['| `state` | `open` or `decided` | no |  |  |'],
    ['| `mark` | `,` or a tab or `a\\|b` | no (`,`) |  |  |'],
    ['| `band` | list of frequency, frequency | no |  |  |'],
    ['| `stages` | list of groups | no |  |  |'],
    ['## `stages[]` with `kind: RC`'],
    ['## `stages[].bias` with `kind: RC`'],
    ['## `stages[]` with `kind: LC`'],
  ])('has the line %s', (line) => {
    expect(table.split('\n')).toContain(line);
  });
});

test('servers are told what the file of headers says', () => {
  const headers = headersText({ base: '/bench/', names: [] });
  const blocks = blocksOf(readFileSync(join(folder, 'publish-under-a-sub-path.md'), 'utf8'));
  const servers = blocks.filter(({ language }) => ['nginx', 'apacheconf'].includes(language));
  expect(servers).toHaveLength(2);
  for (const { text } of servers) {
    const stated = [...text.matchAll(/(?:add_header|Header always set) ([\w-]+) "([^"]+)"/g)];
    expect(stated).toHaveLength(3);
    for (const [, name = '', value = ''] of stated)
      expect(headers).toMatch(new RegExp(`^  ${name}: .*${value}$`, 'm'));
  }
});
