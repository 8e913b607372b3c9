import type { Journal } from '../../journal/index.ts';

/** What every record has. */
interface Filed {
  id: string;
  file: string;
}

/**
 * A journal with errors, with every record that cannot be read now as it last could; one whose file is gone stays
 * away. Each stands behind the record that it stood behind before.
 */
export function withLastGood(journal: Journal, last: Journal): Journal {
  const files = new Set(journal.files);
  const kept = <Kind extends Filed>(now: Kind[], before: Kind[]) => merged(now, before, files);
  return {
    ...journal,
    amplifiers: kept(journal.amplifiers, last.amplifiers),
    versions: kept(journal.versions, last.versions),
    units: kept(journal.units, last.units),
    logs: kept(journal.logs, last.logs),
    parts: kept(journal.parts, last.parts),
    decisions: kept(journal.decisions, last.decisions),
    listening: kept(journal.listening, last.listening),
    comparisons: kept(journal.comparisons, last.comparisons),
    pages: kept(journal.pages, last.pages),
  };
}

function merged<Kind extends Filed>(now: Kind[], before: Kind[], files: ReadonlySet<string>): Kind[] {
  const all = [...now];
  for (const [index, record] of before.entries()) {
    if (!files.has(record.file) || all.some(({ id }) => id === record.id)) continue;
    const previous = before[index - 1]?.id;
    all.splice(all.findIndex(({ id }) => id === previous) + 1, 0, record);
  }
  return all;
}
