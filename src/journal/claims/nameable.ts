import { idOf, partOf } from '../files.ts';
import { captureName } from '../ids.ts';
import type { RawRecord } from '../records.ts';
import type { LogData } from '../schemas/index.ts';

/** Everything that figures can be named of, read or not: captures, repeats and versions by id. */
export function nameable(
  logs: readonly Pick<RawRecord<LogData>, 'id' | 'data'>[],
  files: readonly string[],
): string[] {
  return [
    ...logs.flatMap(({ id, data }) =>
      [...data.captures.map(captureName), ...data.repeats.map((one) => one.id)].map(
        (name) => `${id}/${name}`,
      ),
    ),
    ...files.filter((file) => partOf(file) === 'version').map(idOf),
  ];
}
