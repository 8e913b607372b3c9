import { type Problem, problemAt } from '../problem/index.ts';
import { everyRecord, type RecordsByKind } from './every-record.ts';
import { captureName } from './ids.ts';
import { messages } from './messages.ts';
import type { RawRecord } from './records.ts';
import type { LogData } from './schemas/index.ts';

interface Logs {
  logs: readonly RawRecord<LogData>[];
}

/** A name has to fit a file name with what is put behind it. */
const addressable = /^[A-Za-z0-9][A-Za-z0-9._-]{0,119}$/;

/** Checks that every record and capture has a name that can stand in the address of its page. */
export function checkAddresses(raw: RecordsByKind<RawRecord<unknown>> & Logs): Problem[] {
  return [...everyRecord<RawRecord<unknown>>(raw).flatMap(ofRecord), ...raw.logs.flatMap(ofCaptures)];
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
