import type { Element, ElementContent, Root } from 'hast';
import { visit } from 'unist-util-visit';

/** How wide a picture stands at most, and on narrower screens: what the browser picks a file by. */
const shownWidths = '(min-width: 1100px) 1053px, calc(100vw - 40px)';

/**
 * Pictures load with the page, as one that waits to be scrolled to is missing on paper. A picture that stands alone and
 * has a title becomes a figure, with the title as its caption.
 */
export function pictures() {
  return (tree: Root): void => {
    visit(tree, 'element', (element) => {
      if (element.tagName === 'img') Object.assign(element.properties, attributesOf(element));
      if (element.tagName === 'p') captionOf(element);
    });
  };
}

function attributesOf({ properties }: Element): Record<string, string> {
  const isDrawing = String(properties['src']).endsWith('.svg');
  return { loading: 'eager', ...(isDrawing ? {} : { sizes: shownWidths }) };
}

function captionOf(paragraph: Element): void {
  const picture = onlyPicture(paragraph.children);
  const title = picture?.properties['title'];
  if (!picture || typeof title !== 'string') return;
  delete picture.properties['title'];
  const caption: Element = {
    type: 'element',
    tagName: 'figcaption',
    properties: {},
    children: [{ type: 'text', value: title }],
  };
  paragraph.tagName = 'figure';
  paragraph.properties = { className: ['picture'] };
  paragraph.children = [picture, caption];
}

function onlyPicture(children: readonly ElementContent[]): Element | null {
  const [first, ...others] = children.filter((node) => node.type !== 'text' || node.value.trim() !== '');
  return first?.type === 'element' && first.tagName === 'img' && others.length === 0 ? first : null;
}
