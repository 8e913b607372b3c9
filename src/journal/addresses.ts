import { type Problem, problemAt } from '../problem/index.ts';
import { captureName } from './ids.ts';
import { messages } from './messages.ts';
import type { RawRecord } from './records.ts';
import type { LogData } from './schemas/index.ts';

const addressable = /^[A-Za-z0-9][A-Za-z0-9._-]*$/;

interface Addressed {
  amplifiers: readonly RawRecord<unknown>[];
  versions: readonly RawRecord<unknown>[];
  units: readonly RawRecord<unknown>[];
  logs: readonly RawRecord<LogData>[];
  parts: readonly RawRecord<unknown>[];
  decisions: readonly RawRecord<unknown>[];
  sessions: readonly RawRecord<unknown>[];
  comparisons: readonly RawRecord<unknown>[];
}

/** Checks that every record and capture has a name that can stand in the address of its page. */
export function checkAddresses({
  amplifiers,
  versions,
  units,
  logs,
  parts,
  decisions,
  sessions,
  comparisons,
}: Addressed): Problem[] {
  return [
    ...[
      ...amplifiers,
      ...versions,
      ...units,
      ...logs,
      ...parts,
      ...decisions,
      ...sessions,
      ...comparisons,
    ].flatMap(ofRecord),
    ...logs.flatMap(ofCaptures),
  ];
}

function ofRecord({ id, file }: RawRecord<unknown>): Problem[] {
  const name = id.split('/').find((part) => !addressable.test(part));
  return name === undefined ? [] : [problemAt({ file, line: 1, column: 1 }, messages.notAnAddress(name))];
}

function ofCaptures({ data, yaml }: RawRecord<LogData>): Problem[] {
  return data.captures.flatMap((capture, index) => {
    const name = captureName(capture);
    if (addressable.test(name)) return [];
    return [problemAt(yaml.placeOf(['captures', index, 'file']), messages.captureName(name))];
  });
}
