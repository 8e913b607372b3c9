import type { Problem } from '../problem/index.ts';
import { problemAt } from '../problem/index.ts';
import { checkAddresses } from './addresses.ts';
import { joinOutputs } from './amplifier-output.ts';
import type { AnalysisCache } from './analysis-cache.ts';
import { resolveCaptures } from './captures.ts';
import { checkDecisions } from './decisions.ts';
import { idOf, isRecord, partOf, resolveInside } from './files.ts';
import { captureName } from './ids.ts';
import { judged } from './judged.ts';
import { chooseKeyFigures } from './key-figures.ts';
import { resolveListening } from './listening.ts';
import { checkMentions } from './mentions.ts';
import { messages } from './messages.ts';
import type { LinkContext } from './prose/links.ts';
import { proseRenderer } from './prose/render.ts';
import type { RawRecord } from './records.ts';
import { checkReferences } from './references.ts';
import { resolveRepeats } from './repeats.ts';
import type {
  AmplifierData,
  DecisionData,
  JournalSettings,
  ListeningData,
  LogData,
  PartData,
  VersionData,
} from './schemas/index.ts';
import { versionSheet } from './sheets.ts';
import type { OutputContext } from './stage-output.ts';
import { readTubes } from './tubes.ts';
import type { CaptureRecord, Journal, Log, Prose, Version } from './types.ts';

/** The records of a journal whose frontmatter fits, before they are joined. */
export interface RawJournal {
  root: string;
  settings: JournalSettings;
  amplifiers: RawRecord<AmplifierData>[];
  versions: RawRecord<VersionData>[];
  logs: RawRecord<LogData>[];
  parts: RawRecord<PartData>[];
  decisions: RawRecord<DecisionData>[];
  sessions: RawRecord<ListeningData>[];
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
  problems.push(...mdxRefused(raw), ...checkReferences(raw), ...checkAddresses(raw));
  problems.push(...checkDecisions(raw.decisions));
  const tubes = readTubes();
  const prose = await renderAll(raw, resolution);
  const read = await Promise.all(
    raw.logs.map(async (record) => ({
      record,
      ...(await resolveCaptures(root, record, files, resolution.cache, raw)),
    })),
  );
  const joinedCaptures = joinOutputs(read, raw.versions);
  const outputs = outputsOf(raw, joinedCaptures.captures.flat());
  const versions = raw.versions.map((record): Version => {
    const {
      sheet,
      diagrams,
      problems: faults,
    } = versionSheet(record, { root, mains: settings.mains, outputs }, tubes);
    problems.push(...faults);
    return { ...joined(record, prose), amplifier: parentOf(record.id), sheet, diagrams };
  });
  const amplifiers = raw.amplifiers.map((record) => ({
    ...joined(record, prose),
    versions: versions.filter(({ amplifier }) => amplifier === record.id),
  }));
  const parts = raw.parts.map((record) => joined(record, prose));
  const resolved = read.map(({ record }, i) => resolveLog(record, joinedCaptures.captures[i] ?? [], prose));
  problems.push(...read.flatMap((result) => result.problems), ...joinedCaptures.problems);
  problems.push(...resolved.flatMap((result) => result.problems));
  const { listening, ...sessions } = await resolveListening(raw.sessions, {
    ...{ root, files, captures: joinedCaptures.captures.flat() },
    proseOf: (record) => joined(record, prose).prose,
  });
  problems.push(...sessions.problems);
  const { logs, decisions, ...claims } = judged({
    ...{ settings, files, versions, records: raw },
    logs: resolved.map(({ log }) => log).sort(newestFirst),
    proseOf: (record) => joined(record, prose).prose,
    written: [...amplifiers, ...parts, ...listening],
  });
  problems.push(...claims.problems);
  return { folder: root, settings, amplifiers, versions, parts, decisions, listening, logs, tubes, files };
}

/** What the stages of a journal may name. */
function outputsOf({ parts, logs, files }: RawJournal, captures: readonly CaptureRecord[]): OutputContext {
  return {
    parts: new Map(parts.map(({ id, data }) => [id, data])),
    partIds: files.filter((file) => partOf(file) === 'part').map(idOf),
    captures,
    captureIds: logs.flatMap(({ id, data }) =>
      data.captures.map((capture) => `${id}/${captureName(capture)}`),
    ),
  };
}

function resolveLog(
  record: RawRecord<LogData>,
  captures: CaptureRecord[],
  prose: ReadonlyMap<string, Prose>,
): { log: Omit<Log, 'expectations'>; problems: Problem[] } {
  const { repeats, problems } = resolveRepeats(record, captures);
  const chosen = chooseKeyFigures(record, captures, repeats);
  const log = { ...joined(record, prose), captures, repeats, keyFigures: chosen.keyFigures };
  return { log, problems: [...problems, ...chosen.problems, ...checkMentions(log)] };
}

const parentOf = (id: string) => id.slice(0, id.lastIndexOf('/'));

const newestFirst = (a: Pick<Log, 'id' | 'data'>, b: Pick<Log, 'id' | 'data'>) =>
  a.data.date === b.data.date ? (a.id < b.id ? 1 : -1) : a.data.date < b.data.date ? 1 : -1;

function joined<Data>(record: RawRecord<Data>, prose: ReadonlyMap<string, Prose>) {
  const { id, file, data, source } = record;
  const { body, bodyLine } = source;
  const nothing = { headings: [], imagePaths: [], mentions: [], figures: [] };
  const none: Prose = { format: 'md', body, bodyLine, html: '', ...nothing };
  return { id, file, data, prose: prose.get(id) ?? none };
}

function mdxRefused({ settings, logs }: RawJournal): Problem[] {
  if (settings.mdx) return [];
  return logs
    .filter(({ file }) => file.endsWith('.mdx'))
    .map(({ file }) => problemAt({ file, line: 1, column: 1 }, messages.mdxOff()));
}

async function renderAll(raw: RawJournal, { base, problems }: Resolution): Promise<Map<string, Prose>> {
  const records = [
    ...raw.amplifiers,
    ...raw.versions,
    ...raw.logs,
    ...raw.parts,
    ...raw.decisions,
    ...raw.sessions,
  ];
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

interface Linked {
  root: string;
  files: readonly string[];
  logs: readonly { id: string; file: string; data: Pick<LogData, 'captures'> }[];
}

/** What links in prose are resolved against: every record, sound or not, and every capture and file. */
export function linkContext({ root, files, logs }: Linked, base: string): LinkContext {
  const captures = logs.flatMap(({ id, file, data }) =>
    data.captures.map((capture) => ({
      id: `${id}/${captureName(capture)}`,
      file: resolveInside(file, capture.file) ?? '',
    })),
  );
  return {
    ...{ root, base },
    files: new Set(files),
    ids: new Set([...files.filter(isRecord).map(idOf), ...captures.map(({ id }) => id)]),
    captures: new Set(captures.map(({ file }) => file)),
  };
}
