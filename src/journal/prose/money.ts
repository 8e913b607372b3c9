import type { Root } from 'mdast';
import { visit } from 'unist-util-visit';
import type { VFile } from 'vfile';
import 'mdast-util-math';

/**
 * Gives prices back their dollar signs: `$5 and $6` is not mathematics. A pair of single dollars counts as
 * mathematics only when no space stands inside either dollar and no digit follows the closing one.
 */
export function money() {
  return (tree: Root, file: VFile): void => {
    const source = String(file);
    visit(tree, 'inlineMath', (node, index, parent) => {
      const start = node.position?.start.offset ?? 0;
      const end = node.position?.end.offset ?? 0;
      const raw = source.slice(start, end);
      const price = /^\$\s|\s\$$/.test(raw) || /\d/.test(source[end] ?? '');
      if (raw.startsWith('$$') || !price || !parent || index === undefined) return;
      parent.children[index] = { type: 'text', value: raw };
    });
  };
}
