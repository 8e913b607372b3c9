const namespace = 'http://www.w3.org/2000/svg';

/** The element of the page with an id, of the class that its markup says. */
export function element<Class extends Element>(id: string, type: new () => Class): Class {
  const found = document.getElementById(id);
  if (!(found instanceof type)) throw new Error(`The page has no ${type.name} with the id ${id}.`);
  return found;
}

/** An HTML element with attributes and content. */
export function html<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Readonly<Record<string, string>>,
  ...content: (Node | string)[]
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.append(...content);
  return made;
}

/** An SVG element with attributes and content. */
export function svg(
  tag: string,
  attributes: Readonly<Record<string, string | number>>,
  ...content: (Node | string)[]
): SVGElement {
  const made = document.createElementNS(namespace, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, String(value));
  made.append(...content);
  return made as SVGElement;
}

/** Fills a select with choices, each a value and its text, and chooses one. */
export function fill(
  select: HTMLSelectElement,
  choices: readonly (readonly [value: string, text: string])[],
  chosen: string,
): void {
  select.replaceChildren(...choices.map(([value, text]) => html('option', { value }, text)));
  select.value = chosen;
}
