import { z } from 'zod';
import {
  amplifierSchema,
  comparisonSchema,
  decisionSchema,
  journalSchema,
  listeningSchema,
  logSchema,
  partSchema,
  unitSchema,
  versionSchema,
} from '../journal/schemas/index.ts';
import { describe } from './descriptions.ts';

/** Each kind of record with its schema and with where it lives in a journal. */
const records: Readonly<Record<string, readonly [z.ZodType, string]>> = {
  journal: [journalSchema, 'journal.yaml'],
  amplifier: [amplifierSchema, 'amplifiers/<amplifier>/index.md'],
  version: [versionSchema, 'amplifiers/<amplifier>/<version>.md'],
  unit: [unitSchema, 'amplifiers/<amplifier>/units/<unit>.md'],
  part: [partSchema, 'parts/<part>.md'],
  decision: [decisionSchema, 'decisions/<decision>.md'],
  comparison: [comparisonSchema, 'comparisons/<comparison>.md'],
  listening: [listeningSchema, 'listening/<session>.md'],
  log: [logSchema, 'logs/<date>-<slug>/index.md'],
};

/**
 * JSON Schemas (draft 2020-12) of what is written in each kind of record, by file name. They hold names, kinds and
 * choices; quantities, dates and what belongs together are judged by `check` alone.
 */
export function recordSchemas(): Record<string, string> {
  return Object.fromEntries(
    Object.entries(records).map(([kind, [schema, place]]) => {
      const { $schema, ...rest } = z.toJSONSchema(schema, { io: 'input' });
      const document = { $schema, $id: `urn:quiescent:record:${kind}`, title: place, ...describe(rest) };
      return [`${kind}.schema.json`, `${JSON.stringify(document, null, 2)}\n`];
    }),
  );
}
