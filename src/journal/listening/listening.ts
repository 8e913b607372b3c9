import { levelMatch, sessionResult } from '../../listening/index.ts';
import type { Problem } from '../../problem/index.ts';
import type { RawRecord } from '../records.ts';
import type { ListeningData } from '../schemas/index.ts';
import type { CaptureRecord, ListeningSession, Prose } from '../types.ts';
import { heardByBand } from './heard-by-band.ts';
import { verifyKey } from './listening-key.ts';

type RawSession = RawRecord<ListeningData>;

interface ListeningContext {
  root: string;
  files: readonly string[];
  captures: readonly CaptureRecord[];
  proseOf(record: RawSession): Prose;
}

/** Joins every session with what its trials show, how its levels matched, and what was measured; newest first. */
export async function resolveListening(
  records: readonly RawSession[],
  context: ListeningContext,
): Promise<{ listening: ListeningSession[]; problems: Problem[] }> {
  const resolved = await Promise.all(records.map((record) => resolveSession(record, context)));
  const sessions = resolved.map(({ session }) => session);
  return {
    listening: sessions.sort((a, b) => (a.id < b.id ? 1 : -1)),
    problems: resolved.flatMap(({ problems }) => problems),
  };
}

async function resolveSession(record: RawSession, context: ListeningContext) {
  const { id, file, data } = record;
  const key = await verifyKey(record, context);
  const bands = heardByBand(record, context.captures);
  const levels = data.levelMatching;
  const session: ListeningSession = {
    ...{ id, file, data, prose: context.proseOf(record), sealing: key.sealing, heard: bands.heard },
    result: sessionResult(countOf(data)),
    levels: levels ? levelMatch(levels.by, levels.readings, levels.target) : null,
  };
  return { session, problems: [...key.problems, ...bands.problems] };
}

function countOf({ task, listening, trials, plannedTrials, aim, alternatives }: ListeningData) {
  const isRight = ({ played, answer }: ListeningData['trials'][number]) =>
    task === 'discrimination' ? played === answer : answer === alternatives[0]?.id;
  return {
    ...{ task, isBlind: listening === 'blind', trials: trials.length },
    ...{ successes: trials.filter(isRight).length, planned: plannedTrials ?? null, effect: aim ?? null },
  };
}
