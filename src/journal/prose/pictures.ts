import type { Root } from 'hast';
import { visit } from 'unist-util-visit';

/** Pictures load with the page, as one that waits to be scrolled to is missing on paper. */
export function pictures() {
  return (tree: Root): void => {
    visit(tree, 'element', ({ tagName, properties }) => {
      if (tagName === 'img') properties['loading'] = 'eager';
    });
  };
}
