import { realpath, stat } from 'node:fs/promises';
import { byPlace, type Problem, problemAt } from '../problem/index.ts';
import { type AnalysisCache, analysisCache } from './analysis/analysis-cache.ts';
import { type FilePart, idOf, isRecord, listFiles, partOf } from './files.ts';
import { messages } from './messages.ts';
import { type RawRecord, readRecord, readYamlFile } from './records.ts';
import { type RawJournal, resolveJournal } from './resolve.ts';
import { schemaOf } from './schemas/index.ts';
import type { Journal } from './types.ts';

export interface OpenOptions {
  /** Address prefix of the site, with a slash at both ends (default `/`). */
  base?: string;
  /** Analyses kept from an earlier opening in this process. */
  cache?: AnalysisCache;
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
  const { raw, problems } = await readJournal(root);
  const { base = '/', cache = analysisCache() } = options;
  const journal = raw && (await resolveJournal(raw, { base, cache, problems }));
  return { journal, problems: withoutRepeats(problems).sort(byPlace) };
}

/** Two captures of one file would tell its faults twice. */
function withoutRepeats(problems: readonly Problem[]): Problem[] {
  return [...new Map(problems.map((problem) => [JSON.stringify(problem), problem])).values()];
}

const refuse = (fault: Parameters<typeof problemAt>[1]): Opened => ({
  journal: null,
  problems: [problemAt({ file: 'journal.yaml', line: 1, column: 1 }, fault)],
});

async function readJournal(root: string): Promise<{ raw: RawJournal | null; problems: Problem[] }> {
  const { files, problems } = await listFiles(root);
  problems.push(...strayFiles(files), ...doubleIds(files));
  const settings = files.includes('journal.yaml')
    ? await readYamlFile(root, 'journal.yaml', schemaOf.journal)
    : { data: null, ...refuse(messages.noJournalFile()) };
  problems.push(...settings.problems);
  const amplifiers = await readAll(root, files, 'amplifier', schemaOf.amplifier, problems);
  const versions = await readAll(root, files, 'version', schemaOf.version, problems);
  const units = await readAll(root, files, 'unit', schemaOf.unit, problems);
  const logs = await readAll(root, files, 'log', schemaOf.log, problems);
  const parts = await readAll(root, files, 'part', schemaOf.part, problems);
  const decisions = await readAll(root, files, 'decision', schemaOf.decision, problems);
  const sessions = await readAll(root, files, 'listening', schemaOf.listening, problems);
  const comparisons = await readAll(root, files, 'comparison', schemaOf.comparison, problems);
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
    files,
  };
  return { raw, problems };
}

async function readAll<S extends Parameters<typeof readRecord>[2]>(
  root: string,
  files: readonly string[],
  part: FilePart,
  schema: S,
  problems: Problem[],
) {
  const wanted = files.filter((file) => partOf(file) === part);
  const results = await Promise.all(wanted.map((file) => readRecord(root, file, schema)));
  problems.push(...results.flatMap((result) => result.problems));
  return results.flatMap(({ record }): RawRecord<NonNullable<typeof record>['data']>[] =>
    record ? [record] : [],
  );
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
