import type { Problem } from '../problem/index.ts';
import { problemAt } from '../problem/index.ts';
import { checkAddresses } from './addresses.ts';
import type { AnalysisCache } from './analysis/analysis-cache.ts';
import { resolveCaptures } from './analysis/captures.ts';
import { chooseKeyFigures } from './analysis/key-figures.ts';
import { withRepeatability } from './analysis/repeatability.ts';
import { resolveRepeats } from './analysis/repeats.ts';
import { checkDecisions } from './claims/decisions.ts';
import { judged } from './claims/judged.ts';
import { checkSessions, resolveComparisons } from './comparisons/comparisons.ts';
import { everyRecord } from './every-record.ts';
import { idOf, isRecord, partOf, resolveInside } from './files.ts';
import { captureName } from './ids.ts';
import { resolveListening } from './listening/listening.ts';
import { checkMentions } from './mentions.ts';
import { messages } from './messages.ts';
import type { LinkContext } from './prose/links.ts';
import { proseRenderer } from './prose/render.ts';
import { checkPlaces } from './publishing/check-places.ts';
import { checkReservedFiles } from './publishing/reserved-files.ts';
import { checkTags } from './publishing/tags.ts';
import type { RawRecord } from './records.ts';
import { checkReferences } from './references.ts';
import type {
  AmplifierData,
  ComparisonData,
  DecisionData,
  JournalSettings,
  ListeningData,
  LogData,
  PartData,
  UnitData,
  VersionData,
} from './schemas/index.ts';
import { joinOutputs } from './stages/amplifier-output.ts';
import type { OutputContext } from './stages/stage-output.ts';
import { readTubes } from './stages/tubes.ts';
import type { CaptureRecord, Journal, Log, Prose } from './types.ts';
import { type PlacedBill, readBill } from './versions/bill.ts';
import { resolveVersions } from './versions/resolve-versions.ts';
import { checkUnits, resolveUnits } from './versions/units.ts';

/** The records of a journal whose frontmatter fits, before they are joined. */
export interface RawJournal {
  root: string;
  settings: JournalSettings;
  amplifiers: RawRecord<AmplifierData>[];
  versions: RawRecord<VersionData>[];
  units: RawRecord<UnitData>[];
  logs: RawRecord<LogData>[];
  parts: RawRecord<PartData>[];
  decisions: RawRecord<DecisionData>[];
  sessions: RawRecord<ListeningData>[];
  comparisons: RawRecord<ComparisonData>[];
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
  const bills = await readBills(raw, problems);
  problems.push(...mdxRefused(raw), ...checkReferences({ ...raw, bills }), ...checkAddresses(raw));
  problems.push(...checkReservedFiles(raw), ...checkTags(raw.logs));
  problems.push(...checkDecisions(raw.decisions), ...checkUnits(raw.units, raw.versions));
  const tubes = readTubes();
  const prose = await renderAll(raw, resolution);
  const proseOf = (record: RawRecord<unknown>) => joined(record, prose).prose;
  const read = await Promise.all(
    raw.logs.map(async (record) => ({
      record,
      ...(await resolveCaptures(root, record, files, resolution.cache, raw)),
    })),
  );
  const joinedCaptures = joinOutputs(read, raw.versions);
  const captures = joinedCaptures.captures.flat();
  const outputs = outputsOf(raw, captures);
  const origin = { root, mains: settings.mains, outputs, tubes, proseOf };
  const { versions, ...built } = resolveVersions(bills, origin);
  const { units, ...batches } = resolveUnits(raw.units, { versions: raw.versions, captures, proseOf });
  problems.push(...built.problems, ...batches.problems);
  const amplifiers = raw.amplifiers.map((record) => ({
    ...joined(record, prose),
    versions: versions.filter(({ amplifier }) => amplifier === record.id),
  }));
  const parts = raw.parts.map((record) => joined(record, prose));
  const resolved = read.map(({ record }, i) => resolveLog(record, joinedCaptures.captures[i] ?? [], prose));
  problems.push(...read.flatMap((result) => result.problems), ...joinedCaptures.problems);
  problems.push(...resolved.flatMap((result) => result.problems));
  const { listening, ...sessions } = await resolveListening(raw.sessions, {
    ...{ root, files, captures, proseOf },
  });
  problems.push(...sessions.problems);
  const { comparisons, ...compared } = resolveComparisons(raw.comparisons, {
    ...{ logs: resolved.map(({ log }) => log), sessions: listening, parts, proseOf },
  });
  problems.push(...compared.problems, ...checkSessions(raw.sessions, raw.comparisons));
  const { logs, decisions, ...claims } = judged({
    ...{ settings, files, versions, records: raw },
    logs: resolved.map(({ log }) => log).sort(newestFirst),
    proseOf,
    written: [...amplifiers, ...units, ...parts, ...listening, ...comparisons],
  });
  problems.push(...claims.problems);
  const journal: Journal = {
    folder: root,
    settings,
    amplifiers,
    versions,
    units,
    parts,
    decisions,
    listening,
    comparisons,
    logs,
    tubes,
    files,
  };
  problems.push(...checkPlaces(journal));
  return journal;
}

/** The list of parts of every version; its problems join the others. */
async function readBills({ root, versions, files }: RawJournal, problems: Problem[]): Promise<PlacedBill[]> {
  const found = await Promise.all(versions.map((record) => readBill(root, record, files)));
  problems.push(...found.flatMap((result) => result.problems));
  return found.map(({ bill }) => bill);
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
  read: readonly CaptureRecord[],
  prose: ReadonlyMap<string, Prose>,
): { log: Omit<Log, 'expectations'>; problems: Problem[] } {
  const { captures, ...declared } = withRepeatability(record, read);
  const { repeats, problems } = resolveRepeats(record, captures);
  const chosen = chooseKeyFigures(record, captures, repeats);
  const log = { ...joined(record, prose), captures, repeats, keyFigures: chosen.keyFigures };
  return { log, problems: [...declared.problems, ...problems, ...chosen.problems, ...checkMentions(log)] };
}

const newestFirst = (a: Pick<Log, 'id' | 'data'>, b: Pick<Log, 'id' | 'data'>) =>
  a.data.date === b.data.date ? (a.id < b.id ? 1 : -1) : a.data.date < b.data.date ? 1 : -1;

function joined<Data>(record: RawRecord<Data>, prose: ReadonlyMap<string, Prose>) {
  const { id, file, data, source } = record;
  const { body, bodyLine } = source;
  const nothing = {
    headings: [],
    headingPlaces: [],
    imagePaths: [],
    mentions: [],
    figures: [],
    fragments: [],
  };
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
  const render = await proseRenderer(linkContext(raw, base));
  const prose = new Map<string, Prose>();
  for (const record of everyRecord(raw)) {
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
