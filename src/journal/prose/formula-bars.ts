import type { Root } from 'hast';
import { visit } from 'unist-util-visit';

/** Signs of relations that the setter takes for delimiters, and the bars that are delimiters in MathML. */
const bars: Readonly<Record<string, string>> = { '∣': '|', '∥': '‖', '|': '|', '‖': '‖' };

/**
 * Gives bars that enclose the character of a delimiter, which grows with what it encloses and stands close to it.
 * The signs "divides" and "parallel to" are neither stretched nor set closely by browsers; as relations they stay.
 * @source MathML Core (W3C Candidate Recommendation), appendix "Operator Dictionary"
 */
export function formulaBars() {
  return (tree: Root): void => {
    visit(tree, 'element', ({ tagName, properties, children: [text] }) => {
      if (tagName !== 'mo' || !('fence' in properties || 'stretchy' in properties)) return;
      const bar = text?.type === 'text' ? bars[text.value] : undefined;
      if (text?.type !== 'text' || bar === undefined) return;
      text.value = bar;
      const close = { lspace: '0em', rspace: '0em' };
      const growing = { stretchy: 'true', symmetric: 'true' };
      Object.assign(properties, { ...close, ...growing, ...properties });
    });
  };
}
