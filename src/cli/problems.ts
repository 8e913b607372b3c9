import { styleText } from 'node:util';
import type { Problem } from '../problem/index.ts';
import { type FramedProblem, framed, printable } from './code-frame.ts';

/** How many problems there are of each severity. */
export interface Counts {
  error: number;
  warning: number;
}

export function countProblems(problems: readonly Problem[]): Counts {
  const error = problems.filter(({ severity }) => severity === 'error').length;
  return { error, warning: problems.length - error };
}

/** "2 errors, 1 warning", or "No problems." */
export function countText({ error, warning }: Counts): string {
  if (error + warning === 0) return 'No problems.';
  const words = [plural(error, 'error'), plural(warning, 'warning')].filter(Boolean);
  return `${words.join(', ')}.`;
}

const plural = (count: number, word: string) =>
  count === 0 ? '' : `${count} ${word}${count === 1 ? '' : 's'}`;

/**
 * Prints problems by file, each with its place, message, the line it stands in and how to mend it.
 * `folder` is what the problems' paths are relative to.
 */
export async function problemReport(problems: readonly Problem[], folder: string): Promise<string> {
  const sorted = await framed(problems, folder);
  return sorted
    .map((one, index) => {
      const { file } = one.problem;
      const heading =
        file === sorted[index - 1]?.problem.file ? '' : `${coloured('bold', printable(file))}\n`;
      return heading + problemText(one);
    })
    .join('\n');
}

function problemText({ problem, frame }: FramedProblem): string {
  const { rule, severity, line, column, message, hint } = problem;
  const word = coloured(severity === 'error' ? 'red' : 'yellow', severity);
  const heading = `  ${line}:${column}  ${word}  ${printable(message)}  [${rule}]`;
  const hints = hint ? [`    ${printable(hint)}`] : [];
  return [heading, ...frame.map((text) => `    ${text}`), ...hints, ''].join('\n');
}

/** A text in colour where problems go to a terminal, unless NO_COLOR is set. */
const coloured = (style: 'red' | 'yellow' | 'bold', text: string) =>
  styleText(style, text, { stream: process.stderr });
