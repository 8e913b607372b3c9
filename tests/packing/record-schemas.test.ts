import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { recordSchemas } from '../../src/packing/record-schemas.ts';
import { schemaFaults } from '../support/schemas.ts';

const folder = 'shared/schemas/records';

test('the JSON Schemas of the records are current; `npm run schemas` writes them', () => {
  const committed = readdirSync(folder).map((name) => [name, readFileSync(join(folder, name), 'utf8')]);
  expect(Object.fromEntries(committed)).toEqual(recordSchemas());
});

/** Kinds of record by their path, as the first that fits. */
const kinds: readonly [RegExp, string][] = [
  [/^journal\.yaml$/, 'journal'],
  [/^amplifiers\/[^/]+\/index\.md$/, 'amplifier'],
  [/^amplifiers\/[^/]+\/units\//, 'unit'],
  [/^amplifiers\/[^/]+\/[^/]+\.md$/, 'version'],
  [/^parts\//, 'part'],
  [/^decisions\//, 'decision'],
  [/^comparisons\//, 'comparison'],
  [/^listening\//, 'listening'],
  [/^logs\//, 'log'],
  [/^pages\//, 'page'],
];

const records = ['content', 'shared/starter'].flatMap((journal) =>
  readdirSync(journal, { recursive: true, encoding: 'utf8' })
    .map((file) => file.replaceAll('\\', '/'))
    .filter((file) => /^[^.].*\.mdx?$|^journal\.yaml$/.test(file) && !file.startsWith('static/'))
    .map((file) => [journal, file] as const),
);

/** What is written in a record: the frontmatter, or the whole of journal.yaml. */
function writtenIn(journal: string, file: string): unknown {
  const text = readFileSync(join(journal, file), 'utf8');
  return parse(file.endsWith('.yaml') ? text : (text.split(/^---$/m)[1] ?? ''));
}

describe('what is written in a record fits the schema of its kind', () => {
  test.each(records)('%s/%s', (journal, file) => {
    const [, kind = ''] = kinds.find(([pattern]) => pattern.test(file)) ?? [];
    expect(schemaFaults(`records/${kind}`, writtenIn(journal, file))).toEqual([]);
  });
});

describe('an editor is told of', () => {
  const log = { title: 'a', date: '2026-01-18', amplifier: 'amplifiers/tern', question: 'b' };

  test.each([
    ['an unknown key', { ...log, captues: [] }, /additional properties .*captues/],
    ['a missing key', { title: 'a' }, /required property 'date'/],
    ['another choice', { ...log, captures: [{ file: 'a', title: 'b', kind: 'wave' }] }, /allowed values/],
    ['a list in the place of a text', { ...log, title: [] }, /must be string,number/],
  ])('%s', (_title, data, fault) => {
    expect(schemaFaults('records/log', data).join('\n')).toMatch(fault);
  });

  test('what a key means, with an example', () => {
    const { properties } = JSON.parse(recordSchemas()['version.schema.json'] ?? '') as {
      properties: Record<string, { description?: string }>;
    };
    expect(properties['ratedLoad']?.description).toBe('The load its power is rated into: `8 Ω`.');
  });
});
