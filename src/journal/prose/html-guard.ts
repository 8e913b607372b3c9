import type { Root } from 'mdast';
import { SKIP, visit } from 'unist-util-visit';
import type { VFile } from 'vfile';
import { proseMessages } from './messages.ts';
import { report } from './report.ts';

const allowed = /^<\/?(?:br|sub|sup|kbd|small|mark|del|ins|abbr|details|summary)\s*\/?>$/i;
const tag = /<[^>]*>?/g;

/** Refuses raw HTML outside a short list of tags without attributes, and takes comments out. */
export function htmlGuard() {
  return (tree: Root, file: VFile): void => {
    visit(tree, 'html', (node, index, parent) => {
      const text = node.value.replaceAll(/<!--[\s\S]*?-->/g, '');
      const refused = (text.match(tag) ?? []).find((found) => !allowed.test(found));
      if (refused) report(file, node, proseMessages.htmlRefused(refused));
      if (text.trim() !== '' || !parent || index === undefined) {
        node.value = text;
        return undefined;
      }
      parent.children.splice(index, 1);
      return [SKIP, index] satisfies [typeof SKIP, number];
    });
  };
}
