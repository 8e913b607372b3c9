import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { hasErrors } from '../../problem/index.ts';
import { safetyNotice } from '../../site/safety.ts';
import type { Inspection } from '../inspect-document.ts';
import { inspectFile } from '../inspection.ts';
import { logSkeleton } from '../log-skeleton.ts';
import { dateOf, firstAmplifier, type NewFile, noJournal, writeAll } from '../new-files.ts';
import type { Output } from '../output.ts';
import { fromCaller, shownPath } from '../paths.ts';
import { problemReport } from '../problems.ts';
import { titleSlug } from '../title-slug.ts';
import type { NewLog } from './new-arguments.ts';

/** A capture to be copied: where it lies, and how it is read. */
interface Source {
  absolute: string;
  inspection: Inspection;
}

/**
 * Begins a log with copies of captures beside it, declared as they were understood. One that can be copied but not be
 * understood is declared by its name alone, with its problems told.
 */
export async function beginLog(
  { journal: written, title, captures }: NewLog,
  output: Output,
): Promise<number> {
  const journal = fromCaller(written);
  const date = dateOf(new Date());
  const name = `${date}-${titleSlug(title)}`;
  const sources = await Promise.all(captures.map(sourceOf));
  const problems = await problemsOf(sources);
  if (problems !== '') output.notice(problems);
  const inspections = sources.map(({ inspection }) => inspection);
  const folder = path.join(journal, 'logs', name);
  const failure =
    noJournal(journal) ??
    unusable(inspections) ??
    (await writeAll(
      await filesOf(folder, sources, { title, date, amplifier: await firstAmplifier(journal) }),
    ));
  if (failure !== null) {
    output.notice(failure);
    return 1;
  }
  output.result(reportOf(folder, inspections));
  output.notice(`\n${safetyNotice}`);
  return inspections.some((one) => hasErrors(one.problems)) ? 1 : 0;
}

async function sourceOf(written: string): Promise<Source> {
  const absolute = fromCaller(written);
  return { absolute, inspection: await inspectFile(absolute, { declaration: {} }) };
}

async function problemsOf(sources: readonly Source[]): Promise<string> {
  const reports = sources
    .filter(({ inspection }) => inspection.problems.length > 0)
    .map(({ absolute, inspection }) => problemReport(inspection.problems, path.dirname(absolute)));
  return (await Promise.all(reports)).join('\n');
}

/** Why captures cannot be copied into one folder, or null. */
function unusable(inspections: readonly Inspection[]): string | null {
  if (inspections.some(({ sha256 }) => sha256 === null)) return 'Nothing was written.';
  const names = inspections.map(({ file }) => nameOf(file));
  const twice = names.find((name, index) => names.indexOf(name) !== index);
  return twice === undefined
    ? null
    : `Two captures would be called "${twice}" in the log; rename one of them. Nothing was written.`;
}

/** What a log calls a capture, as far as file systems that ignore case tell names apart. */
const nameOf = (file: string) => path.parse(file).name.toLowerCase();

async function filesOf(
  folder: string,
  sources: readonly Source[],
  about: { title: string; date: string; amplifier: string },
): Promise<NewFile[]> {
  const captures = sources.map(({ inspection }) => inspection);
  const copies = sources.map(async ({ absolute, inspection }) => ({
    file: path.join(folder, inspection.file),
    text: await readFile(absolute),
  }));
  const record = { file: path.join(folder, 'index.md'), text: logSkeleton({ ...about, captures }) };
  return [record, ...(await Promise.all(copies))];
}

function reportOf(folder: string, inspections: readonly Inspection[]): string {
  const files = ['index.md', ...inspections.map(({ file }) => file)];
  return [
    'Written:',
    ...files.map((file) => `  ${shownPath(path.join(folder, file))}`),
    'Next: the question, the title of each capture, and check.',
  ].join('\n');
}
