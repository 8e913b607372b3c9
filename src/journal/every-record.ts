import type { RawRecord } from './records.ts';

/** Records by kind, each of any content. */
interface ByKind {
  amplifiers: readonly RawRecord<unknown>[];
  versions: readonly RawRecord<unknown>[];
  units: readonly RawRecord<unknown>[];
  logs: readonly RawRecord<unknown>[];
  parts: readonly RawRecord<unknown>[];
  decisions: readonly RawRecord<unknown>[];
  sessions: readonly RawRecord<unknown>[];
  comparisons: readonly RawRecord<unknown>[];
  pages: readonly RawRecord<unknown>[];
}

/** Every record of a journal, kind by kind. */
export const everyRecord = (raw: ByKind): RawRecord<unknown>[] => [
  ...raw.amplifiers,
  ...raw.versions,
  ...raw.units,
  ...raw.logs,
  ...raw.parts,
  ...raw.decisions,
  ...raw.sessions,
  ...raw.comparisons,
  ...raw.pages,
];
