import type { Problem } from '../problem/index.ts';
import { problemAt } from '../problem/index.ts';
import type { AnalysisCache } from './analysis-cache.ts';
import { resolveCaptures } from './captures.ts';
import { captureName } from './ids.ts';
import { chooseKeyFigures } from './key-figures.ts';
import { checkMentions } from './mentions.ts';
import { messages } from './messages.ts';
import type { LinkContext } from './prose/links.ts';
import { proseRenderer } from './prose/render.ts';
import type { RawRecord } from './records.ts';
import { checkReferences } from './references.ts';
import type { AmplifierData, JournalSettings, LogData, VersionData } from './schemas/index.ts';
import { versionSheet } from './sheets.ts';
import { readTubes } from './tubes.ts';
import type { Journal, Log, Prose, Version } from './types.ts';

/** The records of a journal whose frontmatter fits, before they are joined. */
export interface RawJournal {
  root: string;
  settings: JournalSettings;
  amplifiers: RawRecord<AmplifierData>[];
  versions: RawRecord<VersionData>[];
  logs: RawRecord<LogData>[];
  files: string[];
}

interface Resolution {
  base: string;
  cache: AnalysisCache;
  /** Collects every problem found on the way. */
  problems: Problem[];
}

/** Joins the records into one journal: references, prose, load sheets and captures. */
export async function resolveJournal(raw: RawJournal, resolution: Resolution): Promise<Journal> {
  const { root, settings, files } = raw;
  const { problems } = resolution;
  problems.push(...mdxRefused(raw), ...checkReferences(raw.amplifiers, raw.versions, raw.logs));
  const tubes = readTubes();
  const prose = await renderAll(raw, resolution);
  const versions = raw.versions.map((record): Version => {
    const { sheet, diagrams, problems: faults } = versionSheet(record, settings, tubes);
    problems.push(...faults);
    return { ...joined(record, prose), amplifier: parentOf(record.id), sheet, diagrams };
  });
  const amplifiers = raw.amplifiers.map((record) => ({
    ...joined(record, prose),
    versions: versions.filter(({ amplifier }) => amplifier === record.id),
  }));
  const logs = await Promise.all(raw.logs.map((record) => resolveLog(record, raw, prose, resolution)));
  return { folder: root, settings, amplifiers, versions, logs: logs.sort(newestFirst), tubes, files };
}

async function resolveLog(
  record: RawRecord<LogData>,
  { root, files }: RawJournal,
  prose: ReadonlyMap<string, Prose>,
  { cache, problems }: Resolution,
): Promise<Log> {
  const resolved = await resolveCaptures(root, record, files, cache);
  const chosen = chooseKeyFigures(record, resolved.captures);
  const log = { ...joined(record, prose), captures: resolved.captures, keyFigures: chosen.keyFigures };
  problems.push(...resolved.problems, ...chosen.problems, ...checkMentions(log));
  return log;
}

const parentOf = (id: string) => id.slice(0, id.lastIndexOf('/'));

const newestFirst = (a: Log, b: Log) =>
  a.data.date === b.data.date ? (a.id < b.id ? 1 : -1) : a.data.date < b.data.date ? 1 : -1;

function joined<Data>(record: RawRecord<Data>, prose: ReadonlyMap<string, Prose>) {
  const { id, file, data, source } = record;
  const { body, bodyLine } = source;
  const none: Prose = { format: 'md', body, bodyLine, html: '', headings: [], imagePaths: [], mentions: [] };
  return { id, file, data, prose: prose.get(id) ?? none };
}

function mdxRefused({ settings, logs }: RawJournal): Problem[] {
  if (settings.mdx) return [];
  return logs
    .filter(({ file }) => file.endsWith('.mdx'))
    .map(({ file }) => problemAt({ file, line: 1, column: 1 }, messages.mdxOff()));
}

async function renderAll(raw: RawJournal, { base, problems }: Resolution): Promise<Map<string, Prose>> {
  const records = [...raw.amplifiers, ...raw.versions, ...raw.logs];
  const render = await proseRenderer(linkContext(raw, base));
  const prose = new Map<string, Prose>();
  for (const record of records) {
    if (record.file.endsWith('.mdx') && !raw.settings.mdx) continue;
    const rendered = await render(record.source);
    problems.push(...rendered.problems);
    prose.set(record.id, rendered.prose);
  }
  return prose;
}

type Linked = Pick<RawJournal, 'files'> & {
  [kind in 'amplifiers' | 'versions']: readonly { id: string }[];
} & { logs: readonly { id: string; data: Pick<LogData, 'captures'> }[] };

/** What links in prose are resolved against: every record and capture by id, every file by path. */
export function linkContext(journal: Linked & { root: string }, base: string): LinkContext {
  const { root, files, amplifiers, versions, logs } = journal;
  const captures = logs.flatMap((log) =>
    log.data.captures.map((capture) => `${log.id}/${captureName(capture)}`),
  );
  const ids = new Set([...[...amplifiers, ...versions, ...logs].map(({ id }) => id), ...captures]);
  return { root, base, files: new Set(files), ids };
}
