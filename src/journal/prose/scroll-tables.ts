import type { Element, Root } from 'hast';
import { SKIP, visit } from 'unist-util-visit';

/** Wraps tables so that a wide one scrolls by itself and the page does not; listings scroll too, by the keyboard as well. */
export function scrollTables() {
  return (tree: Root): void => {
    visit(tree, 'element', (element, index, parent) => {
      if (element.tagName === 'pre') {
        element.properties = { ...element.properties, tabIndex: 0, role: 'group', ariaLabel: 'Listing' };
        return SKIP;
      }
      if (element.tagName !== 'table' || !parent || index === undefined) return undefined;
      const wrapper: Element = {
        type: 'element',
        tagName: 'div',
        properties: { className: ['scroll'], tabIndex: 0, role: 'group', ariaLabel: 'Table' },
        children: [element],
      };
      parent.children[index] = wrapper;
      return SKIP;
    });
  };
}
