import type { AnalysisCache } from './analysis/analysis-cache.ts';
import { resolveCaptures } from './analysis/captures.ts';
import { resolveInside } from './files.ts';
import type { Memory } from './memory.ts';
import type { RawRecord } from './records.ts';
import type { RawJournal } from './resolve.ts';
import type { LogData } from './schemas/index.ts';
import type { ReadLog } from './stages/output-task.ts';
import type { CaptureRecord } from './types.ts';

/** The captures of a log that could be read, and what is wrong with the others. */
type CapturesRead = Awaited<ReturnType<typeof resolveCaptures>>;

/** Reads the captures of every log; those whose log, files and settings stayed as they were are not read again. */
export function readLogs(raw: RawJournal, cache: AnalysisCache, memory: Memory): Promise<CapturesRead[]> {
  const all = raw.files.join('\n');
  return Promise.all(
    raw.logs.map((record) =>
      memory.remember(
        `captures of ${record.id}`,
        [record.data, raw.settings, ratingsOf(record, raw), ...stampsOf(record, raw, all)],
        () => resolveCaptures(raw.root, record, raw.files, cache, raw),
      ),
    ),
  );
}

/** What the captures of a log take from the versions they show. */
function ratingsOf({ data }: RawRecord<LogData>, { versions }: RawJournal): string {
  const shown = new Set([data.version, ...data.captures.map(({ version }) => version)]);
  const ratings = versions.map(({ id, data: { ratedPower, ratedLoad } }) => [id, ratedPower, ratedLoad]);
  return JSON.stringify(ratings.filter(([id]) => shown.has(String(id))));
}

/** The state of each capture file of a log; of one that is not there, all names among which it is looked for. */
const stampsOf = ({ file, data }: RawRecord<LogData>, { stamps }: RawJournal, all: string) =>
  data.captures.map((capture) => stamps.get(resolveInside(file, capture.file) ?? '') ?? all);

/** Joins the captures of every log with those they name; `join` does so for one log among all captures. */
export function joinedLogs(
  read: readonly CapturesRead[],
  raw: RawJournal,
  memory: Memory,
  join: (log: ReadLog, every: readonly CaptureRecord[]) => CapturesRead,
): CapturesRead[] {
  const found = read.flatMap(({ captures }) => captures);
  const every = memory.remember('captures of all logs', found, () => found);
  return raw.logs.map((record, index) => {
    const { captures = [] } = read[index] ?? {};
    return memory.remember(
      `joined captures of ${record.id}`,
      [record.data, captures, ratingsOf(record, raw), captures.some(namesOther) ? every : null],
      () => join({ record, captures }, every),
    );
  });
}

const namesOther = ({ data: { loudspeaker, otherLoad, responseSweep } }: CaptureRecord): boolean =>
  [loudspeaker, otherLoad, responseSweep].some((name) => name !== undefined);
