import { type Place, type Problem, problemAt } from '../problem/index.ts';
import { comparisonReferences } from './comparisons/comparison-references.ts';
import { idOf, partOf } from './files.ts';
import { captureName } from './ids.ts';
import { messages } from './messages.ts';
import { nearestPaths } from './nearest-paths.ts';
import type { RawRecord } from './records.ts';
import type {
  ComparisonData,
  DecisionData,
  JournalSettings,
  ListeningData,
  LogData,
  UnitData,
  VersionData,
} from './schemas/index.ts';
import type { PlacedBill } from './versions/bill.ts';
import { amplifierOfUnit } from './versions/units.ts';
import type { YamlPath } from './yaml.ts';

/** Records of one kind, by id. */
export interface Named {
  kind: string;
  ids: readonly string[];
}

/** The records of a journal that refer to each other, and the files that they may refer to. */
interface Referring {
  versions: readonly RawRecord<VersionData>[];
  bills: readonly PlacedBill[];
  units: readonly RawRecord<UnitData>[];
  logs: readonly RawRecord<LogData>[];
  decisions: readonly RawRecord<DecisionData>[];
  sessions: readonly RawRecord<ListeningData>[];
  comparisons: readonly RawRecord<ComparisonData>[];
  settings: Pick<JournalSettings, 'instruments'>;
  files: readonly string[];
}

/**
 * Checks that every reference leads to something of the right kind. A record whose own frontmatter has
 * faults can be referred to: its faults are told once, at their place.
 */
export function checkReferences({
  versions,
  bills,
  units,
  logs,
  decisions,
  sessions,
  comparisons,
  settings,
  files,
}: Referring): Problem[] {
  const named = (kind: 'amplifier' | 'version' | 'part' | 'decision' | 'comparison'): Named => ({
    kind,
    ids: files.filter((file) => partOf(file) === kind).map(idOf),
  });
  const amplifier = named('amplifier');
  const version = named('version');
  const part = named('part');
  const decision = named('decision');
  const comparison = named('comparison');
  const capture: Named = {
    kind: 'capture',
    ids: logs.flatMap(({ id, data }) => data.captures.map((one) => `${id}/${captureName(one)}`)),
  };
  const instrument: Named = { kind: 'instrument', ids: settings.instruments.map(({ id }) => id) };
  return [
    ...versions.flatMap((record) => [
      ...resolves(record, ['follows'], record.data.follows, version),
      ...ownFolder(record, amplifier, record.id.slice(0, record.id.lastIndexOf('/'))),
    ]),
    ...bills.flatMap(({ parts }) =>
      parts.flatMap(({ line, placeOf }) => resolvesAt(() => placeOf('record'), line.record, part)),
    ),
    ...units.flatMap((record) => ofUnit(record, { amplifier, version, capture, logs: logIds(files) })),
    ...logs.flatMap((record) => [
      ...resolves(record, ['amplifier'], record.data.amplifier, amplifier),
      ...resolves(record, ['version'], record.data.version, version),
      ...ofSameAmplifier(record),
      ...record.data.captures.flatMap((capture, index) => [
        ...resolves(record, ['captures', index, 'version'], capture.version, version),
        ...resolves(record, ['captures', index, 'instrument'], capture.instrument, instrument),
      ]),
    ]),
    ...decisions.flatMap((record) => [
      ...resolves(record, ['amplifier'], record.data.amplifier, amplifier),
      ...resolves(record, ['version'], record.data.version, version),
      ...ofSameAmplifier(record),
      ...resolves(record, ['replacedBy'], record.data.replacedBy, decision),
      ...record.data.options.flatMap((one, index) =>
        resolves(record, ['options', index, 'part'], one.part, part),
      ),
    ]),
    ...sessions.flatMap((record) => ofSession(record, { amplifier, version, decision, capture, comparison })),
    ...comparisons.flatMap((record) =>
      comparisonReferences(record, { amplifier, version, part, decision, capture }, { logs, files }),
    ),
    ...cycles(versions),
  ];
}

const logIds = (files: readonly string[]) => files.filter((file) => partOf(file) === 'log').map(idOf);

/** A unit names a version of its own amplifier, and captures one by one or as all of a log. */
function ofUnit(
  record: RawRecord<UnitData>,
  known: Record<'amplifier' | 'version' | 'capture', Named> & { logs: readonly string[] },
): Problem[] {
  const { id, data, yaml } = record;
  const amplifier = amplifierOfUnit(id);
  const captures: Named = { kind: 'capture', ids: [...known.capture.ids, ...known.logs] };
  const missing = resolves(record, ['version'], data.version, known.version);
  const strange = missing.length === 0 && !data.version.startsWith(`${amplifier}/`);
  return [
    ...ownFolder(record, known.amplifier, amplifier),
    ...missing,
    ...(strange ? [problemAt(yaml.placeOf(['version']), messages.wrongFolder(data.version, amplifier))] : []),
    ...data.captures.flatMap((written, index) =>
      resolves(record, ['captures', index], written.split('#')[0], captures),
    ),
  ];
}

/** What a listening session names: amplifier and decision, and of its alternatives versions and captures. */
function ofSession(
  record: RawRecord<ListeningData>,
  known: Record<'amplifier' | 'version' | 'decision' | 'capture' | 'comparison', Named>,
): Problem[] {
  const { amplifier, decision, comparison, alternatives } = record.data;
  return [
    ...resolves(record, ['amplifier'], amplifier, known.amplifier),
    ...resolves(record, ['decision'], decision, known.decision),
    ...resolves(record, ['comparison'], comparison, known.comparison),
    ...alternatives.flatMap(({ version, capture }, index) => [
      ...resolves(record, ['alternatives', index, 'version'], version, known.version),
      ...resolves(record, ['alternatives', index, 'capture'], capture?.split('#')[0], known.capture),
    ]),
  ];
}

/** The problem that a reference leads to nothing; none where it resolves or is left out. */
export function resolves(
  record: RawRecord<unknown>,
  path: YamlPath,
  id: string | undefined,
  known: Named,
): Problem[] {
  return resolvesAt(() => record.yaml.placeOf(path), id, known);
}

function resolvesAt(place: () => Place, id: string | undefined, { kind, ids }: Named): Problem[] {
  if (id === undefined || ids.includes(id)) return [];
  return [problemAt(place(), messages.dangling(kind, id, nearestPaths(plainId(id), ids), ids))];
}

/** An id without what people add to it: slashes at the ends, `index`, an extension. */
const plainId = (written: string) => idOf(written.replaceAll(/^\/+|\/+$/g, ''));

/** The folder that a record stands in is an amplifier. */
function ownFolder({ file }: RawRecord<unknown>, amplifier: Named, parent: string): Problem[] {
  if (amplifier.ids.includes(parent)) return [];
  return [problemAt({ file, line: 1, column: 1 }, messages.noAmplifier(parent))];
}

function ofSameAmplifier({ data, yaml }: RawRecord<LogData | DecisionData>): Problem[] {
  if (data.version === undefined || data.version.startsWith(`${data.amplifier}/`)) return [];
  return [problemAt(yaml.placeOf(['version']), messages.wrongFolder(data.version, data.amplifier))];
}

/** Versions that follow each other in a circle; each circle is reported once, at its smallest id. */
function cycles(versions: readonly RawRecord<VersionData>[]): Problem[] {
  const byId = new Map(versions.map((version) => [version.id, version]));
  return versions.flatMap((version) => {
    const chain = [version.id];
    for (let next = version.data.follows; next !== undefined; next = byId.get(next)?.data.follows) {
      if (next === version.id) {
        const smallest = chain.every((id) => version.id <= id);
        return smallest
          ? [problemAt(version.yaml.placeOf(['follows']), messages.versionCycle([...chain, next]))]
          : [];
      }
      if (chain.includes(next)) return [];
      chain.push(next);
    }
    return [];
  });
}
