import type { VFile } from 'vfile';
import type { Fault } from '../../problem/index.ts';
import type { FragmentMention, Mention } from '../types.ts';

/** A fault found in prose, with the position in its own file. */
export interface ProseFault {
  fault: Fault;
  line: number;
  column: number;
}

/** What the steps note while they work on one file; it travels in the file's frontmatter object. */
export interface ProseNotes {
  faults: ProseFault[];
  mentions: (Omit<Mention, 'place'> & { line: number; column: number })[];
  /** Figures named in running text, with what they are of. */
  figures: { figure: string; of: string; line: number; column: number }[];
  /** Pictures that exist: as written, and by their path in the journal. */
  pictures: { written: string; file: string; line: number; column: number }[];
  /** Where the headings stand, in their order. */
  headings: { line: number; column: number }[];
  /** Places on pages of the site that links lead to. */
  fragments: (Omit<FragmentMention, 'place'> & { line: number; column: number })[];
}

interface Positioned {
  position?: { start: { line: number; column: number; offset?: number | undefined } } | undefined;
}

export const noNotes = (): ProseNotes => ({
  faults: [],
  mentions: [],
  figures: [],
  pictures: [],
  headings: [],
  fragments: [],
});

/** The notes of a file, begun on first use. */
export function notesOf(file: VFile): ProseNotes {
  const data = file.data as { astro?: { frontmatter?: Record<string, unknown> } };
  data.astro ??= {};
  data.astro.frontmatter ??= {};
  const holder = data.astro.frontmatter as { proseNotes?: ProseNotes };
  holder.proseNotes ??= noNotes();
  return holder.proseNotes;
}

export function startOf(node: Positioned): { line: number; column: number } {
  const { line, column } = node.position?.start ?? { line: 1, column: 1 };
  return { line, column };
}

/** Notes a fault at a node. */
export function report(file: VFile, node: Positioned, fault: Fault): void {
  notesOf(file).faults.push({ fault, ...startOf(node) });
}

/**
 * The place of an offset in a node's value. In quotes and lists the value lacks what stands before it in each
 * line, so the line is looked for in the source; `skippedLines` are those of the node before its value.
 */
export function within(
  file: VFile,
  node: Positioned,
  { value, offset, skippedLines = 0 }: { value: string; offset: number; skippedLines?: number },
): Positioned {
  const start = startOf(node);
  const before = value.slice(0, offset).split('\n');
  const line = start.line + skippedLines + before.length - 1;
  const source = String(file).split(/\r?\n/)[line - 1] ?? '';
  const text = value.split('\n')[before.length - 1] ?? '';
  const from = line === start.line ? start.column - 1 : 0;
  const column = Math.max(source.indexOf(text, from), 0) + (before.at(-1) ?? '').length + 1;
  return { position: { start: { line, column } } };
}
