import type { SessionKey } from './key-file.ts';
import type { Task } from './plan.ts';

/** What stands on the sheet besides the order. */
export interface SheetFacts {
  key: SessionKey;
  alternatives: readonly [string, string];
  sha256: string;
  /** The notice that goes with everything that leads to a bench. */
  notice: string;
}

/** The sheet for the helper at the switch, to be printed; the listener does not see it. */
export function trialSheet({ key, alternatives, sha256, notice }: SheetFacts): string {
  const { session, task, order } = key;
  const other = (played: string) => alternatives.find((one) => one !== played) ?? '';
  const rows = order.map((played, index) =>
    task === 'preference'
      ? [String(index + 1), played, other(played), '', '']
      : [String(index + 1), played, '', ''],
  );
  const head =
    task === 'preference'
      ? ['trial', 'first', 'second', 'passage', 'preferred']
      : ['trial', 'play', 'passage', 'answer'];
  return `${[
    `Trial sheet: ${session}`,
    ...wrapped('For the helper at the switch. The listener does not see this sheet before the last trial.'),
    '',
    ...instructions(task, alternatives, order.length).flatMap((text) => wrapped(text, '   ')),
    '',
    ...wrapped(notice),
    '',
    ...table([head, ...rows]),
    '',
    'SHA-256 of the key file:',
    sha256,
  ].join('\n')}\n`;
}

function instructions(task: Task, [one, other]: readonly [string, string], trials: number): string[] {
  const asked =
    task === 'preference'
      ? 'play both in the order of the line, and write down whether the first or the second was preferred.'
      : `play the one that the line names, after ${one} and ${other} have been played by name if the listener asks, and write down which it was taken for.`;
  return [
    `1. ${trials} trials were fixed beforehand: hold all of them, and no more.`,
    `2. In each trial ${asked}`,
    '3. An answer is always given, if need be by guessing; that is what makes its chance one half.',
    '4. Switch in the same way and for the same time whether or not the alternative changes.',
    '5. Say the number of the trial and nothing else. Tell no answer right or wrong before the last trial.',
    task === 'preference'
      ? '6. Afterwards, write the trials into the record, each answer as the alternative that was preferred, and put the key file beside it.'
      : '6. Afterwards, write the trials into the record and put the key file beside it.',
  ];
}

/** What a page of A4 holds of a line in the usual type for text files. */
const mostColumns = 76;

/** A text in lines that a printer does not cut; those after the first stand in by `indent`. */
function wrapped(text: string, indent = ''): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > mostColumns) {
      lines.push(line);
      line = indent + word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

function table(rows: readonly (readonly string[])[]): string[] {
  const [head = []] = rows;
  const widths = head.map((_, column) => Math.max(12, ...rows.map((row) => row[column]?.length ?? 0)));
  const filled = (cell: string, column: number) => cell.padEnd(widths[column] ?? 0, cell === '' ? '_' : ' ');
  return rows.map((row) => row.map(filled).join('  ').trimEnd());
}
