/** A fenced block of a page of the handbook. */
export interface Block {
  /** Line of the file that its text begins at. */
  line: number;
  language: string;
  /** What stands behind the language: `file=NAME`, `record=KIND`, or nothing. */
  told: string;
  text: string;
  /** The paragraph ahead of it. */
  before: string;
}

/** The fenced blocks of a Markdown text, in their order. */
export function blocksOf(markdown: string): Block[] {
  const lines = markdown.split('\n');
  const blocks: Block[] = [];
  for (let at = 0; at < lines.length; at += 1) {
    const [, indent = '', fence = '', language = '', told = ''] =
      /^( *)(`{3,})([\w-]*) ?(.*)$/.exec(lines[at] ?? '') ?? [];
    if (fence === '') continue;
    const end = lines.indexOf(indent + fence, at + 1);
    if (end < 0) throw new Error(`The block at line ${at + 1} is not closed.`);
    const before = lines.slice(0, at).join('\n').trimEnd().split('\n\n').at(-1) ?? '';
    const text = lines.slice(at + 1, end).map((line) => line.slice(indent.length));
    blocks.push({ line: at + 2, language, told, text: `${text.join('\n')}\n`, before });
    at = end;
  }
  return blocks;
}

/** A command of a console block with the lines that are shown as its answer. */
export interface Shown {
  command: string;
  answer: string[];
}

/** Commands stand behind `$`; the lines up to the next are the answer. */
export function commandsOf(text: string): Shown[] {
  const commands: Shown[] = [];
  for (const line of text.trimEnd().split('\n')) {
    if (line.startsWith('$ ')) commands.push({ command: line.slice(2), answer: [] });
    else commands.at(-1)?.answer.push(line);
  }
  return commands;
}

/** Lines that are not blank, with one kind of space, as spaces that do not break cannot be typed. */
const plainLines = (text: string) =>
  text
    .replaceAll(/[\u00A0\u202F]/g, ' ')
    .split('\n')
    .flatMap((line) => (line.trim() === '' ? [] : [line.trimEnd()]));

/** A line that stands for any others. */
const anything = '…';

/**
 * The first line that is shown and was not said, or null. Shown lines follow each other as they were said; an ellipsis
 * stands for any lines between, ahead or behind. Blank lines do not count.
 */
export function missingLine(shown: readonly string[], said: string): string | null {
  const wanted = plainLines(shown.join('\n'));
  const lines = plainLines(said);
  let at = 0;
  let isFree = false;
  for (const line of wanted) {
    if (line === anything) {
      isFree = true;
      continue;
    }
    const found = isFree ? lines.indexOf(line, at) : lines[at] === line ? at : -1;
    if (found < 0) return line;
    at = found + 1;
    isFree = false;
  }
  return wanted.length > 0 && !isFree && at < lines.length ? (lines[at] ?? null) : null;
}
