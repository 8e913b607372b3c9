import type { Root } from 'mdast';
import type { ContainerDirective, LeafDirective, TextDirective } from 'mdast-util-directive';
import type { Node, Parent } from 'unist';
import { SKIP, visit } from 'unist-util-visit';
import type { VFile } from 'vfile';
import { type Fault, nearestNames } from '../../problem/index.ts';
import { proseMessages } from './messages.ts';
import { type Attributes, checkAttributes, mention, mentionFigure } from './placed.ts';
import { report } from './report.ts';

const known = ['::chart', '::summary', ':::note', ':figure'] as const;

/**
 * Turns the allowed directives into placeholders that the page fills, notes what they mention, refuses
 * unknown block directives, and gives text such as `12:30` or `3:1` back what only looks like a directive.
 */
export function directives() {
  return (tree: Root, file: VFile): void => {
    const source = String(file);
    visit(tree, 'textDirective', (node, index, parent) =>
      isFigure(node) ? printFigure(node, file, source) : restore(node, index, parent, source),
    );
    visit(tree, 'leafDirective', (node) => place(node, file));
    visit(tree, 'containerDirective', (node) => enclose(node, file, source));
  };
}

/** Puts the source text of an inline directive back; what stands in its brackets keeps its formatting. */
function restore(
  node: TextDirective,
  index: number | undefined,
  parent: Parent | undefined,
  source: string,
): [typeof SKIP, number] | undefined {
  if (!parent || index === undefined) return undefined;
  const { start, end } = offsets(node);
  const first = node.children[0];
  const last = node.children.at(-1);
  const pieces: Node[] =
    first && last
      ? [
          text(source.slice(start, offsets(first).start)),
          ...node.children,
          text(source.slice(offsets(last).end, end)),
        ]
      : [text(source.slice(start, end))];
  parent.children.splice(index, 1, ...pieces);
  return [SKIP, index + pieces.length];
}

/** A word with a colon before it, `:figure`, is text; with a label or attributes it is meant. */
const isFigure = ({ name, children, attributes }: TextDirective) =>
  name === 'figure' && (children.length > 0 || Object.keys(attributes ?? {}).length > 0);

function printFigure(node: TextDirective, file: VFile, source: string): typeof SKIP {
  const [first, last] = [node.children[0], node.children.at(-1)];
  const figure = first && last ? source.slice(offsets(first).start, offsets(last).end).trim() : '';
  const attributes = node.attributes ?? {};
  checkAttributes('figure', Object.keys(attributes), ':figure', node, file);
  mentionFigure({ figure, of: attributes['of'] }, ':figure', node, file);
  node.children = [];
  node.data = { hName: 'span', hProperties: placeholder('figure', { figure, of: attributes['of'] }) };
  return SKIP;
}

function place(node: LeafDirective, file: VFile): void {
  const { name } = node;
  if (name !== 'chart' && name !== 'summary') {
    report(file, node, unknownDirective(`::${name}`));
    return;
  }
  const attributes = node.attributes ?? {};
  if (node.children.length > 0) report(file, node, proseMessages.labelled(`::${name}`));
  checkAttributes(name, Object.keys(attributes), `::${name}`, node, file);
  mention(name, attributes, `::${name}`, node, file);
  node.data = { hName: 'figure', hProperties: placeholder(name, attributes) };
}

function enclose(node: ContainerDirective, file: VFile, source: string): void {
  const { name } = node;
  if (name !== 'note') {
    report(file, node, unknownDirective(`:::${name}`));
    return;
  }
  const { start, end } = offsets(node);
  if (!/\n[^\n]*:{3,}[ \t]*$/.test(source.slice(start, end)))
    report(file, node, proseMessages.notClosed(':::note'));
  checkAttributes(name, Object.keys(node.attributes ?? {}), ':::note', node, file);
  node.data = { hName: 'div', hProperties: { className: ['margin-note'], role: 'note' } };
}

function unknownDirective(written: string): Fault {
  return proseMessages.unknownDirective(written, nearestNames(written, known), known);
}

/** Attributes of the placeholder element; the page replaces it by what they name. */
function placeholder(name: string, attributes: Attributes): Record<string, string> {
  const given = Object.entries(attributes).flatMap(([key, value]) => (value ? [[`data-${key}`, value]] : []));
  return { 'data-place': name, ...Object.fromEntries(given) };
}

const text = (value: string): Node => ({ type: 'text', value }) as Node;
const offsets = (node: Node) => ({
  start: node.position?.start.offset ?? 0,
  end: node.position?.end.offset ?? 0,
});
