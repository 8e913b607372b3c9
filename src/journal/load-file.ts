import { z } from 'zod';
import type { LoadSheet } from '../load/index.ts';
import { type Problem, problemAt } from '../problem/index.ts';
import { messages } from './messages.ts';
import { outputsAround } from './output-context.ts';
import { readRecord, readYamlFile } from './records.ts';
import { chainSchema, stagesSchema, supplySchema, versionSchema } from './schemas/index.ts';
import { computeSheet, type SheetSource } from './sheets.ts';
import { readTubes } from './tubes.ts';
import type { YamlReading } from './yaml.ts';

/** A stand-alone description of stages and supply, as a version record has them. */
const descriptionSchema = z.strictObject({
  stages: stagesSchema,
  supply: supplySchema.optional(),
  chain: chainSchema.optional(),
});

const defaultMainsHz = 50;

/** Reads a version record (.md) or a stand-alone description (.yaml) and computes its load sheet. */
export async function openLoadFile(
  folder: string,
  file: string,
): Promise<{ sheet: LoadSheet | null; problems: Problem[] }> {
  const { source, yaml, problems } = await readSource(folder, file);
  if (!source || !yaml) return { sheet: null, problems };
  const { outputs, problems: faults } = await outputsAround(folder, source.stages);
  const origin = { root: folder, file, mainsHz: defaultMainsHz, outputs };
  const result = computeSheet(source, yaml, origin, readTubes());
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
