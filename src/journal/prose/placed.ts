import type { Node } from 'unist';
import type { VFile } from 'vfile';
import type { Mention } from '../types.ts';
import { proseMessages } from './messages.ts';
import { notesOf, report, startOf } from './report.ts';

/** What an author may place in prose, with its attributes; the same words in Markdown and MDX. */
export const placeable: Readonly<Record<string, readonly string[]>> = {
  chart: ['capture', 'kind', 'channel'],
  summary: ['capture'],
  note: [],
  figure: ['of'],
  'figure-value': ['figure', 'of'],
};

export type Attributes = Readonly<Record<string, string | null | undefined>>;

/** Reports attributes that are not known; `written` is how the author wrote the thing itself. */
export function checkAttributes(
  name: string,
  given: readonly string[],
  written: string,
  node: Node,
  file: VFile,
): void {
  const known = placeable[name] ?? [];
  for (const key of given.filter((other) => !known.includes(other))) {
    report(file, node, proseMessages.unknownAttribute(key, written, known));
  }
}

/** Notes that a figure is named in running text; without its id, or without what it is of, it is a fault. */
export function mentionFigure({ figure, of }: Attributes, written: string, node: Node, file: VFile): void {
  if (!figure) report(file, node, proseMessages.figureUnnamed(written));
  else if (!of) report(file, node, proseMessages.figureOfNothing(written));
  else notesOf(file).figures.push({ figure, of, ...startOf(node) });
}

/** Notes that a chart or summary is placed; without a capture it is a fault. */
export function mention(
  name: Mention['name'],
  { capture, kind, channel }: Attributes,
  written: string,
  node: Node,
  file: VFile,
): void {
  if (!capture) {
    report(file, node, proseMessages.missingAttribute('capture', written));
    return;
  }
  const asked = { kind: kind ?? null, channel: channel ?? null };
  notesOf(file).mentions.push({ name, capture, ...asked, ...startOf(node) });
}
