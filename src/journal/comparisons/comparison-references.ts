import type { Problem } from '../../problem/index.ts';
import { idOf, isRecord } from '../files.ts';
import type { RawRecord } from '../records.ts';
import { type Named, resolves } from '../references.ts';
import type { ComparisonData, LogData } from '../schemas/index.ts';

type Kind = 'amplifier' | 'version' | 'part' | 'decision' | 'capture';

/** What a comparison names: amplifier and decision, what its alternatives are, and what its criteria rest on. */
export function comparisonReferences(
  record: RawRecord<ComparisonData>,
  known: Record<Kind, Named>,
  { logs, files }: { logs: readonly RawRecord<LogData>[]; files: readonly string[] },
): Problem[] {
  const { amplifier, decision, alternatives, criteria } = record.data;
  const repeats = logs.flatMap(({ id, data }) => data.repeats.map((one) => `${id}/${one.id}`));
  const capture = { kind: 'capture', ids: [...known.capture.ids, ...repeats] };
  const records = { kind: 'record', ids: files.filter(isRecord).map(idOf) };
  const session = {
    kind: 'listening session',
    ids: records.ids.filter((id) => id.startsWith('listening/')),
  };
  return [
    ...resolves(record, ['amplifier'], amplifier, known.amplifier),
    ...resolves(record, ['decision'], decision, known.decision),
    ...alternatives.flatMap(({ version, part, captures }, index) => [
      ...resolves(record, ['alternatives', index, 'version'], version, known.version),
      ...resolves(record, ['alternatives', index, 'part'], part, known.part),
      ...captures.flatMap((written, i) =>
        resolves(record, ['alternatives', index, 'captures', i], captureOf(written), capture),
      ),
    ]),
    ...criteria.flatMap((one, index) => [
      ...resolves(record, ['criteria', index, 'session'], one.session, session),
      ...(one.stated ?? []).flatMap(({ from }, i) =>
        resolves(record, ['criteria', index, 'stated', i, 'from'], from, records),
      ),
    ]),
  ];
}

const captureOf = (written: string) => written.split('#')[0];
