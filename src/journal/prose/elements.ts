import type { Root } from 'mdast';
import type { MdxJsxFlowElement, MdxJsxTextElement } from 'mdast-util-mdx-jsx';
import type { Node } from 'unist';
import { visit } from 'unist-util-visit';
import type { VFile } from 'vfile';
import { nearestNames } from '../../problem/index.ts';
import { resolveInside } from '../files.ts';
import { nearestPaths } from '../nearest-paths.ts';
import { allowedElements } from './html-guard.ts';
import { type LinkContext, recordOf } from './links.ts';
import { proseMessages } from './messages.ts';
import { checkAttributes, mention, mentionFigure } from './placed.ts';
import { report, within } from './report.ts';

type Element = MdxJsxFlowElement | MdxJsxTextElement;

const components = { Chart: 'chart', Summary: 'summary', Note: 'note', FigureValue: 'figure-value' } as const;

/**
 * Checks what MDX may hold beside Markdown: elements of HTML under the same rules as in Markdown, components
 * that are known or imported, and imports that stay inside the journal.
 */
export function elements(context: LinkContext) {
  return (tree: Root, file: VFile): void => {
    const imported = new Set<string>();
    visit(tree, 'mdxjsEsm' as 'html', (node) => {
      for (const name of namesIn(node.value)) imported.add(name);
      checkImports(node, file, context);
    });
    visit(tree, ['mdxJsxFlowElement', 'mdxJsxTextElement'], (node) =>
      checkElement(node as Element, imported, file),
    );
  };
}

/** Names that imports and exports may bring: every word outside quotes. */
const namesIn = (code: string) => code.replaceAll(/(["']).*?\1/g, '').match(/[\w$]+/g) ?? [];

const importedPath = /\b(?:from|import)\s*\(?\s*["']([./][^"'\n]*)["']/g;

function checkImports(node: Node & { value: string }, file: VFile, context: LinkContext): void {
  for (const { 0: whole, 1: target = '', index } of node.value.matchAll(importedPath)) {
    const offset = index + whole.lastIndexOf(target);
    const place = within(file, node, { value: node.value, offset });
    const resolved = resolveInside(recordOf(file, context), target);
    if (resolved === null) report(file, place, proseMessages.linkOutside(target));
    else if (!context.files.has(resolved)) {
      report(file, place, proseMessages.importMissing(target, nearestPaths(resolved, context.files)));
    }
  }
}

function checkElement(node: Element, imported: ReadonlySet<string>, file: VFile): void {
  const { name } = node;
  if (name === null) return;
  if (/^[a-z][^.]*$/.test(name)) {
    if (!allowedElements.includes(name) || node.attributes.length > 0) {
      report(file, node, proseMessages.htmlRefused(`<${name}>`, allowedElements));
    }
    return;
  }
  const [component = ''] = name.split('.');
  if (imported.has(component) || component === 'props') return;
  if (Object.hasOwn(components, name)) checkComponent(node, name as keyof typeof components, file);
  else {
    const known = Object.keys(components);
    report(file, node, proseMessages.unknownComponent(name, nearestNames(name, known), known));
  }
}

function checkComponent(node: Element, name: keyof typeof components, file: VFile): void {
  const placed = components[name];
  const written = `<${name}>`;
  const texts = node.attributes.flatMap(textOf);
  if (node.type === 'mdxJsxTextElement' && placed !== 'figure-value')
    report(file, node, proseMessages.inParagraph(written));
  if (texts.length < node.attributes.length) report(file, node, proseMessages.computedAttribute(written));
  checkAttributes(
    placed,
    texts.map(([key]) => key),
    written,
    node,
    file,
  );
  if (placed === 'note' || texts.length < node.attributes.length) return;
  const attributes = Object.fromEntries(texts);
  if (placed === 'figure-value') mentionFigure(attributes, written, node, file);
  else mention(placed, attributes, written, node, file);
}

/** Name and text of an attribute; nothing for one whose value is computed. */
function textOf(attribute: Element['attributes'][number]): [string, string][] {
  if (attribute.type !== 'mdxJsxAttribute') return [];
  const { name, value = '' } = attribute;
  return typeof value === 'object' && value !== null ? [] : [[name, value ?? '']];
}
