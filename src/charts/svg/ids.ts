import { elementsOf, type SvgElement, writeSvg } from './tree.ts';

/** Stands for the key of a chart until its drawing is finished and can be hashed. */
export const placeholder = '\u0001';

/**
 * Gives the clip paths of a drawing names that depend on nothing but the drawing: the placeholder of the key
 * and a number in the order of first use; equal clip paths become one.
 */
export function renumberClips(top: SvgElement): void {
  const shapes = new Map<string, SvgElement>();
  for (const element of elementsOf(top)) {
    if (element.name === 'clipPath') shapes.set(element.attributes.get('id') ?? '', element);
  }
  const kept = new Map<string, SvgElement>();
  for (const element of elementsOf(top)) {
    const shape = shapes.get(/^url\(#(.*)\)$/.exec(element.attributes.get('clip-path') ?? '')?.[1] ?? '');
    if (shape !== undefined) element.attributes.set('clip-path', `url(#${keep(shape, kept)})`);
  }
  for (const element of elementsOf(top)) if (element.name === 'defs') element.children = [...kept.values()];
}

function keep({ children }: SvgElement, kept: Map<string, SvgElement>): string {
  const content = children.map((child) => (typeof child === 'string' ? child : writeSvg(child))).join('');
  const id = kept.get(content)?.attributes.get('id') ?? `${placeholder}-${kept.size}`;
  if (!kept.has(content))
    kept.set(content, { name: 'clipPath', attributes: new Map([['id', id]]), children });
  return id;
}
