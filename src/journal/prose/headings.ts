import type { Root } from 'mdast';
import { visit } from 'unist-util-visit';
import type { VFile } from 'vfile';
import { notesOf, startOf } from './report.ts';

/** Notes where the headings of a text stand, in their order. */
export function headings() {
  return (tree: Root, file: VFile): void => {
    visit(tree, 'heading', (node) => {
      notesOf(file).headings.push(startOf(node));
    });
  };
}
