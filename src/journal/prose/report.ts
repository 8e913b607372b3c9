import type { VFile } from 'vfile';
import type { Fault } from '../../problem/index.ts';
import type { Mention } from '../types.ts';

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
}

interface Positioned {
  position?: { start: { line: number; column: number; offset?: number | undefined } } | undefined;
}

/** The notes of a file, begun on first use. */
export function notesOf(file: VFile): ProseNotes {
  const data = file.data as { astro?: { frontmatter?: Record<string, unknown> } };
  data.astro ??= {};
  data.astro.frontmatter ??= {};
  const holder = data.astro.frontmatter as { proseNotes?: ProseNotes };
  holder.proseNotes ??= { faults: [], mentions: [] };
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
