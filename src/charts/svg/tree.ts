/** An element of machine-made SVG; text stands as a string between elements, still escaped. */
export interface SvgElement {
  name: string;
  attributes: Map<string, string>;
  children: (SvgElement | string)[];
}

const token = /<(\/?)([\w:]+)((?:\s+[\w:-]+="[^"]*")*)\s*(\/?)>|([^<]+)/g;
const attribute = /([\w:-]+)="([^"]*)"/g;

/**
 * Reads SVG as Vega's string renderer writes it: elements with double-quoted attributes and text, without
 * comments, doctype or CDATA. Returns the outermost element.
 */
export function readSvg(markup: string): SvgElement {
  const root = element('root', '');
  const open = [root];
  for (const [, closing, name = '', attributes = '', empty, text] of markup.matchAll(token)) {
    if (closing) open.pop();
    else {
      const child = text ?? element(name, attributes);
      open.at(-1)?.children.push(child);
      if (typeof child !== 'string' && !empty) open.push(child);
    }
  }
  return root.children.find((child) => typeof child !== 'string') ?? root;
}

/** Writes an element as markup. */
export function writeSvg({ name, attributes, children }: SvgElement): string {
  const written = [...attributes].map(([key, value]) => ` ${key}="${value}"`).join('');
  const inside = children.map((child) => (typeof child === 'string' ? child : writeSvg(child))).join('');
  return inside === '' ? `<${name}${written}/>` : `<${name}${written}>${inside}</${name}>`;
}

/** Every element of a tree, outermost first, in the order of the markup. */
export function* elementsOf(top: SvgElement): Generator<SvgElement> {
  yield top;
  for (const child of top.children) if (typeof child !== 'string') yield* elementsOf(child);
}

/** Escapes text for an element or a double-quoted attribute. */
export function escapeText(text: string): string {
  return text.replace(/[&<>"]/g, (character) => `&#${character.charCodeAt(0)};`);
}

function element(name: string, attributes: string): SvgElement {
  const pairs = [...attributes.matchAll(attribute)].map(([, key = '', value = '']) => [key, value] as const);
  return { name, attributes: new Map(pairs), children: [] };
}
