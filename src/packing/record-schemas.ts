import { z } from 'zod';
import { schemaOf } from '../journal/schemas/index.ts';
import { describe } from './descriptions.ts';

/** Where each kind of record lives in a journal. */
const places: Readonly<Record<keyof typeof schemaOf, string>> = {
  journal: 'journal.yaml',
  amplifier: 'amplifiers/<amplifier>/index.md',
  version: 'amplifiers/<amplifier>/<version>.md',
  unit: 'amplifiers/<amplifier>/units/<unit>.md',
  part: 'parts/<part>.md',
  decision: 'decisions/<decision>.md',
  comparison: 'comparisons/<comparison>.md',
  listening: 'listening/<session>.md',
  log: 'logs/<date>-<slug>/index.md',
  page: 'pages/<page>.md',
};

/** The name of each kind of record. */
const kinds = Object.keys(places) as (keyof typeof schemaOf)[];

/**
 * JSON Schemas (draft 2020-12) of what is written in each kind of record, by file name. They hold names, kinds and
 * choices; quantities, dates and what belongs together are judged by `check` alone.
 */
export function recordSchemas(): Record<string, string> {
  return Object.fromEntries(
    kinds.map((kind) => {
      const { $schema, ...rest } = z.toJSONSchema(schemaOf[kind], { io: 'input' });
      const document = {
        $schema,
        $id: `urn:quiescent:record:${kind}`,
        title: places[kind],
        ...describe(rest),
      };
      return [`${kind}.schema.json`, `${JSON.stringify(document, null, 2)}\n`];
    }),
  );
}
