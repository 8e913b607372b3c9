import { realpath, stat } from 'node:fs/promises';
import { byPlace, type Problem, problemAt } from '../problem/index.ts';
import { type AnalysisCache, analysisCache } from './analysis/analysis-cache.ts';
import { checkFileNames } from './file-names.ts';
import { type FilePart, idOf, isRecord, type Listing, listFiles, partOf } from './files.ts';
import { emptyMemory, type Memory } from './memory.ts';
import { messages } from './messages.ts';
import type { TextOptions } from './prose/texts.ts';
import { type RawRecord, readRecord, readYamlFile } from './records.ts';
import { type OpenStage, type RawJournal, resolveJournal } from './resolve.ts';
import { schemaOf } from './schemas/index.ts';
import type { ResultStore } from './store/result-store.ts';
import type { Journal } from './types.ts';

export interface OpenOptions {
  /** Address prefix of the site, with a slash at both ends (default `/`). */
  base?: string;
  /** Analyses kept from an earlier opening in this process. */
  cache?: AnalysisCache;
  /** What an earlier opening made. */
  memory?: Memory;
  /** Where rendered texts are kept for other processes. */
  store?: ResultStore;
  /** Is told of each text whether it was kept or has been rendered now. */
  onText?: TextOptions['onText'];
  /** Is told of each stage of the work as it begins. */
  onStage?: (stage: OpenStage) => void;
}

/** A journal with every problem found on the way, in order of place; null where it has no usable journal.yaml. */
export interface Opened {
  journal: Journal | null;
  problems: Problem[];
}

/**
 * Reads, validates, resolves and analyses a whole journal. Everything that a build would refuse is among
 * the problems; nothing is written.
 */
export async function openJournal(folder: string, options: OpenOptions = {}): Promise<Opened> {
  const info = await stat(folder).catch(() => null);
  if (!info?.isDirectory()) return refuse(messages.noFolder(folder));
  const root = await realpath(folder);
  const { base = '/', cache = analysisCache(), memory = emptyMemory(), store = null } = options;
  const { onStage = () => undefined, onText = () => undefined } = options;
  onStage('records');
  const { raw, problems } = await readJournal(root, memory);
  const journal =
    raw && (await resolveJournal(raw, { base, cache, memory, store, problems, onStage, onText }));
  if (journal) memory.sweep();
  return { journal, problems: withoutRepeats(problems).sort(byPlace) };
}

/** Each problem once: two captures of one file would tell its faults twice. */
export function withoutRepeats(problems: readonly Problem[]): Problem[] {
  return [...new Map(problems.map((problem) => [JSON.stringify(problem), problem])).values()];
}

const refuse = (fault: Parameters<typeof problemAt>[1]): Opened => ({
  journal: null,
  problems: [problemAt({ file: 'journal.yaml', line: 1, column: 1 }, fault)],
});

async function readJournal(
  root: string,
  memory: Memory,
): Promise<{ raw: RawJournal | null; problems: Problem[] }> {
  const { files, stamps, problems } = await listFiles(root);
  const reading = { root, files, stamps, memory, problems };
  problems.push(...checkFileNames(files), ...strayFiles(files), ...doubleIds(files));
  const settings = files.includes('journal.yaml')
    ? await memory.remember('settings', [stamps.get('journal.yaml')], () =>
        readYamlFile(root, 'journal.yaml', schemaOf.journal),
      )
    : { data: null, ...refuse(messages.noJournalFile()) };
  problems.push(...settings.problems);
  const amplifiers = await readAll('amplifier', schemaOf.amplifier, reading);
  const versions = await readAll('version', schemaOf.version, reading);
  const units = await readAll('unit', schemaOf.unit, reading);
  const logs = await readAll('log', schemaOf.log, reading);
  const parts = await readAll('part', schemaOf.part, reading);
  const decisions = await readAll('decision', schemaOf.decision, reading);
  const sessions = await readAll('listening', schemaOf.listening, reading);
  const comparisons = await readAll('comparison', schemaOf.comparison, reading);
  const pages = await readAll('page', schemaOf.page, reading);
  const raw = settings.data && {
    root,
    settings: settings.data,
    amplifiers,
    versions,
    units,
    logs,
    parts,
    decisions,
    sessions,
    comparisons,
    pages,
    files,
    stamps,
  };
  return { raw, problems };
}

interface Reading extends Listing {
  root: string;
  memory: Memory;
}

async function readAll<S extends Parameters<typeof readRecord>[2]>(
  part: FilePart,
  schema: S,
  { root, files, stamps, memory, problems }: Reading,
) {
  const wanted = files.filter((file) => partOf(file) === part);
  const results = await Promise.all(
    wanted.map((file) =>
      memory.remember(`record ${file}`, [stamps.get(file)], () => readRecord(root, file, schema)),
    ),
  );
  problems.push(...results.flatMap((result) => result.problems));
  return results.flatMap(({ record }): RawRecord<NonNullable<typeof record>['data']>[] =>
    record ? [withKeptHead(record, memory)] : [],
  );
}

/** A record with the frontmatter that was read before, where only the text below it is another. */
function withKeptHead<Data>(record: RawRecord<Data>, memory: Memory): RawRecord<Data> {
  const { file, head } = record;
  const { data, yaml } = memory.remember(`frontmatter ${file}`, [head], () => record);
  return memory.remember(`joined record ${file}`, [record, data], () => ({ ...record, data, yaml }));
}

const strayFiles = (files: string[]): Problem[] =>
  files
    .filter((file) => partOf(file) === 'stray')
    .map((file) => problemAt({ file, line: 1, column: 1 }, messages.strayFile()));

function doubleIds(files: string[]): Problem[] {
  const seen = new Map<string, string>();
  const records = files.filter(isRecord);
  return records.flatMap((file) => {
    const id = idOf(file);
    const other = seen.get(id);
    seen.set(id, file);
    return other ? [problemAt({ file, line: 1, column: 1 }, messages.twiceOneId(id, other))] : [];
  });
}
