import { idOf, isRecord, resolveInside } from './files.ts';
import { captureName } from './ids.ts';
import type { LinkContext } from './prose/links.ts';
import type { LogData } from './schemas/index.ts';

interface Linked {
  root: string;
  files: readonly string[];
  logs: readonly { id: string; file: string; data: Pick<LogData, 'captures'> }[];
}

/** What links in prose are resolved against: every record, sound or not, and every capture and file. */
export function linkContext({ root, files, logs }: Linked, base: string): LinkContext {
  const captures = logs.flatMap(({ id, file, data }) =>
    data.captures.map((capture) => ({
      id: `${id}/${captureName(capture)}`,
      file: resolveInside(file, capture.file) ?? '',
    })),
  );
  return {
    ...{ root, base },
    files: new Set(files),
    ids: new Set([...files.filter(isRecord).map(idOf), ...captures.map(({ id }) => id)]),
    captures: new Set(captures.map(({ file }) => file)),
  };
}
