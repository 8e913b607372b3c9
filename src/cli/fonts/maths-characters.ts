import { italicOf, variantsOf } from './maths-letters.ts';
import { decoded } from './references.ts';

const formula = /<math[\s>][\s\S]*?<\/math>/g;
const element = /<(mi|mn|mo|ms|mtext)((?:\s[^>]*)?)>([^<]*)<\/\1>/g;

/**
 * Code points that the formulas of a page are drawn with. A browser draws an identifier of one letter with the italic
 * letter of mathematics, a hyphen as minus, and the sign of a root, which stands in no text.
 * @source MathML Core (W3C Candidate Recommendation), the sections on mi, on mo and on radicals
 */
export function mathsPoints(html: string): Set<number> {
  const points = new Set<number>();
  for (const [whole] of html.matchAll(formula)) {
    const shown = whole.replaceAll(/<annotation[\s\S]*?<\/annotation>/g, '');
    if (/<m(sqrt|root)/.test(shown)) points.add(rootSign);
    for (const [, name = '', attributes = '', text = ''] of shown.matchAll(element))
      for (const point of drawnPoints(name, attributes, decoded(text))) points.add(point);
  }
  return points;
}

/** A page without its formulas. */
export const withoutMaths = (html: string) => html.replaceAll(formula, '');

const rootSign = 0x221a;
const [hyphen, minus] = [0x2d, 0x2212];

function drawnPoints(name: string, attributes: string, text: string): number[] {
  const points = [...text].map((letter) => letter.codePointAt(0) ?? 0);
  const variant = /mathvariant="([^"]*)"/.exec(attributes)?.[1];
  if (variant !== undefined && variant !== 'normal') return [...points, ...points.flatMap(variantsOf)];
  if (name === 'mo' && points.includes(hyphen)) return [...points, minus];
  const isItalic = name === 'mi' && points.length === 1 && variant === undefined;
  return isItalic ? [...points, ...points.map(italicOf)] : points;
}
