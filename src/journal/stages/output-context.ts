import { stat } from 'node:fs/promises';
import path from 'node:path';
import type { Problem } from '../../problem/index.ts';
import { analysisCache } from '../analysis/analysis-cache.ts';
import { resolveCaptures } from '../analysis/captures.ts';
import { idOf, listFiles, partOf } from '../files.ts';
import { captureName } from '../ids.ts';
import { readRecord } from '../records.ts';
import { logSchema, type PartData, partSchema, type StageData } from '../schemas/index.ts';
import type { CaptureRecord } from '../types.ts';
import type { OutputContext } from './stage-output.ts';

/** What the stages of a record that is read on its own may use: part records and loudspeakers of its journal. */
export async function outputsAround(
  root: string,
  stages: readonly StageData[],
): Promise<{ outputs: OutputContext; problems: Problem[] }> {
  const asked = stages.flatMap((stage) =>
    'transformer' in stage && stage.transformer !== undefined ? [stage] : [],
  );
  const none: OutputContext = { parts: new Map(), partIds: [], captures: [], captureIds: [] };
  const inJournal = await isJournal(root);
  if (asked.length === 0 && !inJournal) return { outputs: none, problems: [] };
  const { files } = await listFiles(root);
  const partFiles = files.filter((file) => partOf(file) === 'part');
  const isNamed = (file: string) => asked.some(({ transformer }) => transformer === idOf(file));
  const read = await Promise.all(
    partFiles
      .filter((file) => inJournal || isNamed(file))
      .map(async (file) => ({ file, ...(await readRecord(root, file, partSchema)) })),
  );
  const records = read.flatMap(({ record }) => record ?? []);
  const captures = await Promise.all(
    asked.flatMap(({ speaker }) => (speaker?.startsWith('logs/') ? [captureOf(root, files, speaker)] : [])),
  );
  const outputs = {
    parts: new Map<string, PartData>(records.map(({ id, data }) => [id, data])),
    partIds: partFiles.map(idOf),
    captures: captures.flat(),
    captureIds: [],
  };
  const named = read.filter(({ file }) => isNamed(file));
  return { outputs, problems: named.flatMap(({ problems }) => problems) };
}

/** The folder of the journal that a folder belongs to: the nearest above with a journal.yaml, else itself. */
export async function journalAround(folder: string): Promise<string> {
  for (let at = folder; ; at = path.dirname(at)) {
    if (await isJournal(at)) return at;
    if (path.dirname(at) === at) return folder;
  }
}

async function isJournal(folder: string): Promise<boolean> {
  const info = await stat(path.join(folder, 'journal.yaml')).catch(() => null);
  return info?.isFile() ?? false;
}

async function captureOf(root: string, files: readonly string[], id: string): Promise<CaptureRecord[]> {
  const log = id.slice(0, id.lastIndexOf('/'));
  const file = files.find((one) => partOf(one) === 'log' && idOf(one) === log);
  const { record } = file === undefined ? { record: null } : await readRecord(root, file, logSchema);
  if (!record?.data.captures.some((capture) => id === `${log}/${captureName(capture)}`)) return [];
  const bench = { settings: { mains: 50 as const, instruments: [] }, versions: [] };
  const { captures } = await resolveCaptures(root, record, files, analysisCache(), bench);
  return captures.filter((capture) => capture.id === id);
}
