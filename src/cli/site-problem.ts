import type { Journal } from '../journal/index.ts';
import { type Problem, problemAt } from '../problem/index.ts';
import { firstReason } from './first-reason.ts';

/**
 * A failure while the site was being written, which only code can bring about that an .mdx log runs or
 * imports, or a folder that cannot be written. It stands at the log it comes from where that can be told.
 */
export function siteProblem(error: unknown, { folder, logs }: Journal): Problem {
  const { errors: [cause = error] = [] } = (error ?? {}) as { errors?: unknown[] };
  const reason = firstReason(cause, folder);
  const { stack = '' } = cause as { stack?: string };
  const log = logs.find(
    ({ id, file }) => reason.includes(file) || stack.includes(`/chunks/${lastPart(id)}_`),
  );
  return problemAt(
    { file: log?.file ?? 'journal.yaml', line: log?.prose.bodyLine ?? 1, column: 1 },
    { rule: 'site', message: `The site cannot be written: ${reason}` },
  );
}

const lastPart = (id: string) => id.slice(id.lastIndexOf('/') + 1);
