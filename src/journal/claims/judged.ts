import type { Problem } from '../../problem/index.ts';
import type { RawRecord } from '../records.ts';
import type { DecisionData, JournalSettings, LogData } from '../schemas/index.ts';
import type { Decision, Log, Prose, Version } from '../types.ts';
import { judgeClaims } from './claims.ts';
import { resolveDecision } from './decisions.ts';
import { checkFigureMentions } from './figure-mentions.ts';
import { figureSources } from './figure-sources.ts';
import { nameable } from './nameable.ts';

/** What claims are made in, and what they are held against. */
interface Judging {
  settings: Pick<JournalSettings, 'strictClaims'>;
  files: readonly string[];
  records: { logs: readonly RawRecord<LogData>[]; decisions: readonly RawRecord<DecisionData>[] };
  /** Logs before their expectations are judged. */
  logs: readonly Omit<Log, 'expectations'>[];
  versions: readonly Version[];
  proseOf(record: RawRecord<unknown>): Prose;
  /** Records whose prose may name figures. */
  written: readonly { id: string; prose: Prose }[];
}

/** Holds the claims of logs and decisions against the figures of the whole journal. */
export function judged({ settings, files, records, logs, versions, proseOf, written }: Judging): {
  logs: Log[];
  decisions: Decision[];
  problems: Problem[];
} {
  const context = {
    sources: figureSources(logs, versions),
    declared: nameable(records.logs, files),
    dates: new Map(logs.map(({ id, data }) => [id, data.date])),
    strict: settings.strictClaims,
  };
  const problems: Problem[] = [];
  const withExpectations = logs.map((log): Log => {
    const record = records.logs.find(({ id }) => id === log.id);
    if (!record) return { ...log, expectations: [] };
    const found = judgeClaims({ record, key: 'expectations', claims: log.data.expectations }, context);
    problems.push(...found.problems);
    return { ...log, expectations: found.claims };
  });
  const decisions = records.decisions.map((record) => {
    const found = resolveDecision(record, proseOf(record), context);
    problems.push(...found.problems);
    return found.decision;
  });
  problems.push(
    ...[...written, ...logs, ...versions, ...decisions].flatMap((record) =>
      checkFigureMentions(record, context),
    ),
  );
  return { logs: withExpectations, decisions: decisions.sort(byNumber), problems };
}

const byNumber = (a: Decision, b: Decision) => (a.id < b.id ? -1 : 1);
