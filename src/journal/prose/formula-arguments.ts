import type { Element, ElementContent, Root } from 'hast';
import { visit } from 'unist-util-visit';

/**
 * How many children an element must have.
 * @source MathML Core (W3C Candidate Recommendation), the sections on fractions, radicals, and script and limit schemata
 */
const argumentCounts: Readonly<Record<string, number>> = {
  mfrac: 2,
  mroot: 2,
  msub: 2,
  msup: 2,
  munder: 2,
  mover: 2,
  msubsup: 3,
  munderover: 3,
};

const functionApplication = '\u2061';

/**
 * Makes one argument of a function's name and the sign of its application, which the setter writes as two children
 * into elements that take a fixed number of them, so that browsers refuse a subscript such as "max".
 */
export function formulaArguments() {
  return (tree: Root): void => {
    visit(tree, 'element', (element) => {
      const count = argumentCounts[element.tagName];
      if (count !== undefined && element.children.length > count)
        element.children = withNamesJoined(element.children);
    });
  };
}

function withNamesJoined(children: readonly ElementContent[]): ElementContent[] {
  const joined: ElementContent[] = [];
  for (const child of children) {
    const name = isApplication(child) ? joined.pop() : undefined;
    joined.push(name === undefined ? child : rowOf([name, child]));
  }
  return joined;
}

function isApplication(node: ElementContent): boolean {
  if (node.type !== 'element' || node.tagName !== 'mo') return false;
  const [text] = node.children;
  return text?.type === 'text' && text.value === functionApplication;
}

const rowOf = (children: ElementContent[]): Element => ({
  ...{ type: 'element', tagName: 'mrow' },
  ...{ properties: {}, children },
});
