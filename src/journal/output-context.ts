import { stat } from 'node:fs/promises';
import path from 'node:path';
import type { Problem } from '../problem/index.ts';
import { analysisCache } from './analysis-cache.ts';
import { resolveCaptures } from './captures.ts';
import { idOf, listFiles, partOf } from './files.ts';
import { captureName } from './ids.ts';
import { readRecord } from './records.ts';
import { logSchema, type PartData, partSchema, type StageData } from './schemas/index.ts';
import type { OutputContext } from './stage-output.ts';
import type { CaptureRecord } from './types.ts';

/** What stages name that were read on their own: the part records and loudspeakers of the journal around them. */
export async function outputsAround(
  folder: string,
  stages: readonly StageData[],
): Promise<{ outputs: OutputContext; problems: Problem[] }> {
  const asked = stages.flatMap((stage) =>
    'transformer' in stage && stage.transformer !== undefined ? [stage] : [],
  );
  const none: OutputContext = { parts: new Map(), partIds: [], captures: [], captureIds: [] };
  if (asked.length === 0) return { outputs: none, problems: [] };
  const root = await journalAround(folder);
  const { files } = await listFiles(root);
  const partFiles = files.filter((file) => partOf(file) === 'part');
  const named = partFiles.filter((file) => asked.some(({ transformer }) => transformer === idOf(file)));
  const read = await Promise.all(named.map((file) => readRecord(root, file, partSchema)));
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
  return { outputs, problems: read.flatMap(({ problems }) => problems) };
}

/** The folder of the journal that a folder belongs to: the nearest above with a journal.yaml, else itself. */
async function journalAround(folder: string): Promise<string> {
  for (let at = folder; ; at = path.dirname(at)) {
    const info = await stat(path.join(at, 'journal.yaml')).catch(() => null);
    if (info?.isFile()) return at;
    if (path.dirname(at) === at) return folder;
  }
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
