import type { Problem } from '../../problem/index.ts';
import { printable } from '../code-frame.ts';
import { countProblems, countText, problemReport } from '../problems.ts';

/** What is told of a list of problems in a place that already knows an earlier one. */
export interface Telling {
  /** What the problems' paths are relative to. */
  folder: string;
  /** The journal as a person would write it. */
  name: string;
  /** Whether the earlier list is wiped away before, as on a terminal, so that all is told again. */
  redraws: boolean;
}

/** As many lines of one kind as are told one by one. */
const most = 10;

/**
 * Text for the terminal after a change: what was mended, what is new with its code frame, which errors stay open,
 * and how many there are. Null where nothing changed. A problem that only moved to another line is the same.
 */
export async function changesText(
  before: readonly Problem[],
  after: readonly Problem[],
  { folder, name, redraws }: Telling,
): Promise<string | null> {
  const mended = without(before, after);
  const added = without(after, before);
  if (mended.length + added.length === 0) return null;
  const shown = redraws ? after : added;
  const stay = without(
    after.filter(({ severity }) => severity === 'error'),
    shown,
  );
  const report = shown.length > 0 ? [await problemReport(shown, folder)] : [];
  const lines = [...listed('mended', mended), ...listed('open', stay)];
  const count = `${name}: ${countText(countProblems(after))}`;
  return [...report, ...lines, count].join('\n');
}

/** Problems of one list that another does not hold; each counts as often as it occurs. */
function without(problems: readonly Problem[], others: readonly Problem[]): Problem[] {
  const left = new Map<string, number>();
  for (const other of others) left.set(keyOf(other), (left.get(keyOf(other)) ?? 0) + 1);
  return problems.filter((problem) => {
    const count = left.get(keyOf(problem)) ?? 0;
    left.set(keyOf(problem), count - 1);
    return count <= 0;
  });
}

const keyOf = ({ file, rule, severity, message }: Problem) => JSON.stringify([file, rule, severity, message]);

function listed(word: string, problems: readonly Problem[]): string[] {
  const lines = problems
    .slice(0, most)
    .map(({ file, line, column, message }) => `${word}: ${file}:${line}:${column} ${printable(message)}`);
  return problems.length > most ? [...lines, `${word}: ${problems.length - most} more`] : lines;
}
