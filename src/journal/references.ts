import { nearestNames, type Problem, problemAt } from '../problem/index.ts';
import { messages } from './messages.ts';
import type { RawRecord } from './records.ts';
import type { AmplifierData, LogData, VersionData } from './schemas/index.ts';
import type { YamlPath } from './yaml.ts';

interface Named {
  kind: string;
  ids: readonly string[];
}

/** Checks that every reference between records leads to a record of the right kind. */
export function checkReferences(
  amplifiers: readonly RawRecord<AmplifierData>[],
  versions: readonly RawRecord<VersionData>[],
  logs: readonly RawRecord<LogData>[],
): Problem[] {
  const amplifier: Named = { kind: 'amplifier', ids: amplifiers.map(({ id }) => id) };
  const version: Named = { kind: 'version', ids: versions.map(({ id }) => id) };
  return [
    ...versions.flatMap((record) => [
      ...resolves(record, ['follows'], record.data.follows, version),
      ...ownFolder(record, amplifier),
    ]),
    ...logs.flatMap((record) => [
      ...resolves(record, ['amplifier'], record.data.amplifier, amplifier),
      ...resolves(record, ['version'], record.data.version, version),
      ...ofSameAmplifier(record),
      ...record.data.captures.flatMap((capture, index) =>
        resolves(record, ['captures', index, 'version'], capture.version, version),
      ),
    ]),
    ...cycles(versions),
  ];
}

function resolves(
  record: RawRecord<unknown>,
  path: YamlPath,
  id: string | undefined,
  { kind, ids }: Named,
): Problem[] {
  if (id === undefined || ids.includes(id)) return [];
  return [problemAt(record.yaml.placeOf(path), messages.dangling(kind, id, nearestNames(id, ids)))];
}

/** A version's folder is its amplifier. */
function ownFolder({ id, file }: RawRecord<VersionData>, amplifier: Named): Problem[] {
  const parent = id.slice(0, id.lastIndexOf('/'));
  if (amplifier.ids.includes(parent)) return [];
  return [
    problemAt(
      { file, line: 1, column: 1 },
      messages.dangling('amplifier', parent, nearestNames(parent, amplifier.ids)),
    ),
  ];
}

function ofSameAmplifier({ data, yaml }: RawRecord<LogData>): Problem[] {
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
