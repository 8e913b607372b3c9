import path from 'node:path';
import { z } from 'zod';
import type { LoadSheet } from '../../load/index.ts';
import { type Problem, problemAt } from '../../problem/index.ts';
import { messages } from '../messages.ts';
import { readRecord, readYamlFile } from '../records.ts';
import { chainSchema, stagesSchema, supplySchema, versionSchema } from '../schemas/index.ts';
import type { YamlReading } from '../yaml.ts';
import { journalAround, outputsAround } from './output-context.ts';
import { computeSheet, type SheetSource } from './sheets.ts';
import { readTubes } from './tubes.ts';

/** A stand-alone description of stages and supply, as a version record has them. */
const descriptionSchema = z.strictObject({
  stages: stagesSchema,
  supply: supplySchema.optional(),
  chain: chainSchema.optional(),
});

const defaultMainsHz = 50;

/**
 * Reads a version record (.md) or a stand-alone description (.yaml) and computes its load sheet. Inside a journal, files
 * that it names may be anywhere in that journal. Problems name their file from `folder`.
 */
export async function openLoadFile(
  folder: string,
  name: string,
): Promise<{ sheet: LoadSheet | null; problems: Problem[] }> {
  const root = await journalAround(folder);
  const file = posixPath(path.relative(root, path.join(folder, name)));
  const { sheet, problems } = await computeFrom(root, file);
  return { sheet, problems: problems.map((problem) => fromFolder(problem, { root, folder })) };
}

const posixPath = (file: string) => file.replaceAll(path.sep, '/');

const fromFolder = (problem: Problem, { root, folder }: { root: string; folder: string }): Problem => ({
  ...problem,
  file: posixPath(path.relative(folder, path.join(root, problem.file))),
});

async function computeFrom(
  root: string,
  file: string,
): Promise<{ sheet: LoadSheet | null; problems: Problem[] }> {
  const { source, yaml, problems } = await readSource(root, file);
  if (!source || !yaml) return { sheet: null, problems };
  const { outputs, problems: faults } = await outputsAround(root, source.stages);
  const result = computeSheet(source, yaml, { root, file, mainsHz: defaultMainsHz, outputs }, readTubes());
  const none = result.sheet ? [] : [problemAt({ file, line: 1, column: 1 }, messages.nothingToCompute())];
  return { sheet: result.sheet, problems: [...problems, ...faults, ...result.problems, ...none] };
}

async function readSource(
  folder: string,
  file: string,
): Promise<{ source: SheetSource | null; yaml: YamlReading | null; problems: Problem[] }> {
  if (/\.ya?ml$/.test(file)) {
    const { data, yaml, problems } = await readYamlFile(folder, file, descriptionSchema);
    return { source: data, yaml, problems };
  }
  const { record, problems } = await readRecord(folder, file, versionSchema);
  return { source: record?.data ?? null, yaml: record?.yaml ?? null, problems };
}
