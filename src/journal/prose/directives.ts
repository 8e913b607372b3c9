import type { Root } from 'mdast';
import type { ContainerDirective, LeafDirective, TextDirective } from 'mdast-util-directive';
import type { MdxJsxFlowElement } from 'mdast-util-mdx-jsx';
import type { Node, Parent } from 'unist';
import { SKIP, visit } from 'unist-util-visit';
import type { VFile } from 'vfile';
import { type Fault, nearestNames } from '../../problem/index.ts';
import type { Mention } from '../types.ts';
import { proseMessages } from './messages.ts';
import { notesOf, report, startOf } from './report.ts';

/** Block directives an author may use, with their attributes. */
const placed: Readonly<Record<string, readonly string[]>> = {
  chart: ['capture', 'kind', 'channel'],
  summary: ['capture'],
};
const leafNames = Object.keys(placed);

/**
 * Turns the allowed directives into placeholders that the page fills, notes what they mention, refuses
 * unknown block directives, and gives text such as `12:30` or `3:1` back what only looks like a directive.
 * MDX elements of the same names are noted in the same way.
 */
export function directives() {
  return (tree: Root, file: VFile): void => {
    const source = String(file);
    visit(tree, 'textDirective', (node, index, parent) => restore(node, index, parent, source));
    visit(tree, 'leafDirective', (node) => place(node, file));
    visit(tree, 'containerDirective', (node) => enclose(node, file));
    visit(tree, 'mdxJsxFlowElement', (node) => noteElement(node, file));
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

function place(node: LeafDirective, file: VFile): void {
  const allowed = placed[node.name];
  if (!allowed) {
    report(file, node, unknownDirective(`::${node.name}`));
    return;
  }
  const attributes = node.attributes ?? {};
  for (const key of Object.keys(attributes).filter((name) => !allowed.includes(name))) {
    report(file, node, proseMessages.unknownAttribute(key, `::${node.name}`, allowed));
  }
  mention(node.name, attributes, node, file);
  node.data = { hName: 'figure', hProperties: placeholder(node.name, attributes) };
}

function enclose(node: ContainerDirective, file: VFile): void {
  if (node.name === 'note') node.data = { hName: 'div', hProperties: { className: ['margin-note'], role: 'note' } };
  else report(file, node, unknownDirective(`:::${node.name}`));
}

function unknownDirective(written: string): Fault {
  const known = [...leafNames.map((name) => `::${name}`), ':::note'];
  return proseMessages.unknownDirective(written, nearestNames(written, known), known);
}

function noteElement(node: MdxJsxFlowElement, file: VFile): void {
  const name = (node.name ?? '').toLowerCase();
  const values = node.attributes.flatMap((attribute) =>
    attribute.type === 'mdxJsxAttribute' && typeof attribute.value === 'string'
      ? [[attribute.name, attribute.value] as const]
      : [],
  );
  if (leafNames.includes(name) && /^[A-Z]/.test(node.name ?? ''))
    mention(name, Object.fromEntries(values), node, file);
}

function mention(name: string, attributes: Attributes, node: Node, file: VFile): void {
  const { capture, kind, channel } = attributes;
  if (!capture) {
    report(file, node, proseMessages.missingAttribute('capture', name));
    return;
  }
  const asked = { kind: kind ?? null, channel: channel ?? null };
  notesOf(file).mentions.push({ name: name as Mention['name'], capture, ...asked, ...startOf(node) });
}

type Attributes = Readonly<Record<string, string | null | undefined>>;

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
