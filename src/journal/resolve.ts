import type { Problem } from '../problem/index.ts';
import { problemAt } from '../problem/index.ts';
import { checkAddresses } from './addresses.ts';
import type { AnalysisCache } from './analysis/analysis-cache.ts';
import { chooseKeyFigures } from './analysis/key-figures.ts';
import { withRepeatability } from './analysis/repeatability.ts';
import { resolveRepeats } from './analysis/repeats.ts';
import { checkDecisions } from './claims/decisions.ts';
import { judged } from './claims/judged.ts';
import { checkSessions, resolveComparisons } from './comparisons/comparisons.ts';
import { idOf, partOf } from './files.ts';
import { captureName } from './ids.ts';
import { resolveListening } from './listening/listening.ts';
import type { Memory } from './memory.ts';
import { checkMentions, checkMentionsById } from './mentions.ts';
import { messages } from './messages.ts';
import { proseIn, renderAll } from './prose/render-all.ts';
import type { TextOptions } from './prose/texts.ts';
import { checkPlaces } from './publishing/check-places.ts';
import { resolvePages } from './publishing/pages.ts';
import { checkPublishedCode } from './publishing/published-code.ts';
import { checkPublishedPaths } from './publishing/published-paths.ts';
import { checkReservedFiles } from './publishing/reserved-files.ts';
import { checkTags } from './publishing/tags.ts';
import { joinedLogs, readLogs } from './read-logs.ts';
import type { RawRecord } from './records.ts';
import { checkReferences } from './references.ts';
import type {
  AmplifierData,
  ComparisonData,
  DecisionData,
  JournalSettings,
  ListeningData,
  LogData,
  PageData,
  PartData,
  UnitData,
  VersionData,
} from './schemas/index.ts';
import { joinOutputs } from './stages/amplifier-output.ts';
import type { OutputContext } from './stages/stage-output.ts';
import { readTubes } from './stages/tubes.ts';
import type { CaptureRecord, Journal, Log } from './types.ts';
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
  pages: RawRecord<PageData>[];
  files: string[];
  stamps: ReadonlyMap<string, string>;
}

type ProseOf = ReturnType<typeof proseIn>;

/** The stages in which a journal is opened, in this order. */
export type OpenStage = 'records' | 'prose' | 'captures' | 'joining';

interface Resolution extends TextOptions {
  base: string;
  cache: AnalysisCache;
  memory: Memory;
  /** Collects every problem found on the way. */
  problems: Problem[];
  onStage: (stage: OpenStage) => void;
}

/** Joins the records into one journal: references, prose, load sheets and captures. */
export async function resolveJournal(raw: RawJournal, resolution: Resolution): Promise<Journal> {
  const { root, settings, files } = raw;
  const { cache, memory, problems, onStage } = resolution;
  const bills = await readBills(raw, problems);
  problems.push(...(await checkRecords(raw, bills)));
  const tubes = memory.remember('tubes', [], readTubes);
  onStage('prose');
  const proseOf = proseIn(await renderAll(raw, resolution));
  onStage('captures');
  const read = await readLogs(raw, cache, memory);
  onStage('joining');
  const joinedCaptures = joinedLogs(read, raw, memory, (log, every) => joinOutputs(log, every, raw.versions));
  const captures = joinedCaptures.flatMap((log) => log.captures);
  const outputs = outputsOf(raw, captures);
  const origin = {
    ...{ root, outputs, tubes, proseOf, memory },
    ...{ mains: settings.mains, beside: besideVersions(raw) },
  };
  const { versions, ...built } = resolveVersions(bills, origin);
  const { units, ...batches } = resolveUnits(raw.units, { versions: raw.versions, captures, proseOf });
  problems.push(...built.problems, ...batches.problems);
  const amplifiers = raw.amplifiers.map((record) => ({
    ...joined(record, proseOf),
    versions: versions.filter(({ amplifier }) => amplifier === record.id),
  }));
  const parts = raw.parts.map((record) => joined(record, proseOf));
  const resolved = raw.logs.map((record, i) => {
    const [prose, own = []] = [proseOf(record), joinedCaptures[i]?.captures];
    return memory.remember(`log ${record.id}`, [record, prose, own], () => resolveLog(record, own, proseOf));
  });
  problems.push(...[...read, ...joinedCaptures].flatMap((result) => result.problems));
  problems.push(...resolved.flatMap((result) => result.problems));
  const { listening, ...sessions } = await resolveListening(raw.sessions, {
    ...{ root, files, captures, proseOf },
  });
  problems.push(...sessions.problems);
  const { comparisons, ...compared } = resolveComparisons(raw.comparisons, {
    ...{ logs: resolved.map(({ log }) => log), sessions: listening, parts, proseOf },
  });
  problems.push(...compared.problems, ...checkSessions(raw.sessions, raw.comparisons));
  const pages = resolvePages(raw.pages, proseOf);
  const { logs, decisions, ...claims } = judged({
    ...{ settings, files, versions, records: raw },
    logs: resolved.map(({ log }) => log).sort(newestFirst),
    proseOf,
    written: [...amplifiers, ...units, ...parts, ...listening, ...comparisons, ...pages],
  });
  problems.push(...claims.problems);
  const journal: Journal = {
    folder: root,
    settings,
    ...{ amplifiers, versions, units, parts, decisions, listening, comparisons, logs, pages },
    tubes,
    files,
  };
  problems.push(...checkPlaces(journal), ...checkMentionsById(journal, outputs.captureIds));
  return journal;
}

/** What can be told of the records before anything is read besides them. */
async function checkRecords(raw: RawJournal, bills: readonly PlacedBill[]): Promise<Problem[]> {
  return [
    ...mdxRefused(raw),
    ...checkReferences({ ...raw, bills }),
    ...checkAddresses(raw),
    ...checkReservedFiles(raw),
    ...checkPublishedPaths(raw),
    ...checkTags(raw.logs),
    ...(await checkPublishedCode(raw)),
    ...checkDecisions(raw.decisions),
    ...checkUnits(raw.units, raw.versions),
  ];
}

/** The list of parts of every version; its problems join the others. */
async function readBills({ root, versions, files }: RawJournal, problems: Problem[]): Promise<PlacedBill[]> {
  const found = await Promise.all(versions.map((record) => readBill(root, record, files)));
  problems.push(...found.flatMap((result) => result.problems));
  return found.map(({ bill }) => bill);
}

/** The state of every file that the stages of a version may name besides records and captures of logs. */
const besideVersions = ({ stamps }: RawJournal): string =>
  JSON.stringify([...stamps].filter(([file]) => !file.startsWith('logs/') && partOf(file) === 'other'));

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
  proseOf: ProseOf,
): { log: Omit<Log, 'expectations'>; problems: Problem[] } {
  const { captures, ...declared } = withRepeatability(record, read);
  const { repeats, problems } = resolveRepeats(record, captures);
  const chosen = chooseKeyFigures(record, captures, repeats);
  const log = { ...joined(record, proseOf), captures, repeats, keyFigures: chosen.keyFigures };
  const mentions = checkMentions(log.prose, captures, record.data.captures.map(captureName));
  return { log, problems: [...declared.problems, ...problems, ...chosen.problems, ...mentions] };
}

const newestFirst = (a: Pick<Log, 'id' | 'data'>, b: Pick<Log, 'id' | 'data'>) =>
  a.data.date === b.data.date ? (a.id < b.id ? 1 : -1) : a.data.date < b.data.date ? 1 : -1;

function joined<Data>({ id, file, data, ...record }: RawRecord<Data>, proseOf: ProseOf) {
  return { id, file, data, prose: proseOf({ id, file, data, ...record }) };
}

function mdxRefused({ settings, logs }: RawJournal): Problem[] {
  if (settings.mdx) return [];
  return logs
    .filter(({ file }) => file.endsWith('.mdx'))
    .map(({ file }) => problemAt({ file, line: 1, column: 1 }, messages.mdxOff()));
}
