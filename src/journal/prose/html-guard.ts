import type { Html, Root } from 'mdast';
import { SKIP, visit } from 'unist-util-visit';
import type { VFile } from 'vfile';
import { proseMessages } from './messages.ts';
import { report, within } from './report.ts';

/** Elements that may stand in prose, without attributes. */
export const allowedElements: readonly string[] =
  'br sub sup kbd small mark del ins abbr details summary'.split(' ');
const allowed = new RegExp(String.raw`^</?(?:${allowedElements.join('|')})\s*/?>$`, 'i');
/** A comment as browsers end it. */
const comment = /<!--(?:-?>|[\s\S]*?--!?>)/g;
const commentOrTag = new RegExp(`${comment.source}|<[^>]*>?`, 'g');

/** Refuses raw HTML outside a short list of tags without attributes, and takes comments out. */
export function htmlGuard() {
  return (tree: Root, file: VFile): void => {
    const refused = new Set<string>();
    visit(tree, 'html', (node, index, parent) => {
      refuseTags(node, file, refused);
      node.value = node.value.replaceAll(comment, '');
      if (node.value.trim() !== '' || !parent || index === undefined) return undefined;
      parent.children.splice(index, 1);
      return [SKIP, index] satisfies [typeof SKIP, number];
    });
  };
}

/** Reports every tag that is not allowed; the closing tag of a refused element is not told again. */
function refuseTags(node: Html, file: VFile, refused: Set<string>): void {
  for (const { 0: tag, index } of node.value.matchAll(commentOrTag)) {
    if (allowed.test(tag) || tag.replace(comment, '') === '') continue;
    const name = /^<\/?([^\s/>]*)/.exec(tag)?.[1] ?? '';
    if (tag.startsWith('</') && refused.has(name)) continue;
    refused.add(name);
    report(
      file,
      within(file, node, { value: node.value, offset: index }),
      proseMessages.htmlRefused(tag, allowedElements),
    );
  }
}
