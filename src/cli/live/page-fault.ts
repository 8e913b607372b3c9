import path from 'node:path';
import type { Journal } from '../../journal/index.ts';
import { type Place, type Problem, problemAt } from '../../problem/index.ts';
import { writtenRecords } from '../../site/record-entry.ts';
import { firstReason } from '../first-reason.ts';

/** An error that was raised while a page was made, as the tools in between leave it. */
interface Raised {
  stack?: string;
  id?: string;
  loc?: { file?: string; line?: number; column?: number };
}

/** Why a page could not be made, at the file of the journal that it comes from. */
export function pageFault(error: unknown, address: string, journal: Journal): Problem {
  return problemAt(placeOf((error ?? {}) as Raised, address, journal), {
    rule: 'page',
    message: `The page ${address} cannot be shown: ${firstReason(error, journal.folder)}`,
  });
}

/** The place in the file that the error names, or else the beginning of the record whose page it is. */
function placeOf({ stack = '', id = '', loc }: Raised, address: string, journal: Journal): Place {
  const named = journal.files.find((file) =>
    [loc?.file ?? '', id, stack].some((text) => text.includes(path.join(journal.folder, file))),
  );
  if (named !== undefined) {
    const isHere = loc?.file?.includes(path.join(journal.folder, named)) ?? false;
    return { file: named, line: (isHere && loc?.line) || 1, column: (isHere && loc?.column) || 1 };
  }
  const page = address.replaceAll(/^\/|\/$/g, '');
  const record = writtenRecords(journal).find((one) => page === one.id || page.startsWith(`${one.id}/`));
  return { file: record?.file ?? 'journal.yaml', line: record?.prose.bodyLine ?? 1, column: 1 };
}
