import { amplifierSchema } from './amplifier.ts';
import { comparisonSchema } from './comparison.ts';
import { decisionSchema } from './decision.ts';
import { journalSchema } from './journal.ts';
import { listeningSchema } from './listening.ts';
import { logSchema } from './log.ts';
import { pageSchema } from './page.ts';
import { partSchema } from './part.ts';
import { unitSchema } from './unit.ts';
import { versionSchema } from './version.ts';

/** What may stand in journal.yaml, and in the frontmatter of each kind of record. */
export const schemaOf = {
  journal: journalSchema,
  amplifier: amplifierSchema,
  version: versionSchema,
  unit: unitSchema,
  part: partSchema,
  decision: decisionSchema,
  comparison: comparisonSchema,
  listening: listeningSchema,
  log: logSchema,
  page: pageSchema,
} as const;
