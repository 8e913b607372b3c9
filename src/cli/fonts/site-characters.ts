import { readFile } from 'node:fs/promises';
import { mathsPoints, withoutMaths } from './maths-characters.ts';
import { decoded } from './references.ts';
import { usualPoints } from './signs.ts';

/** Code points that a site is written with. */
export interface SiteCharacters {
  text: ReadonlySet<number>;
  /** Those of formulas, which have a font of their own. */
  maths: ReadonlySet<number>;
}

/** Reads the characters of files that hold text for readers, or words that page scripts put on a page. */
export async function siteCharacters(files: readonly string[]): Promise<SiteCharacters> {
  const text = new Set(usualPoints);
  const maths = new Set<number>();
  for (const file of files) {
    const content = await readFile(file, 'utf8');
    for (const point of textPoints(withoutMaths(content))) text.add(point);
    for (const point of mathsPoints(content)) maths.add(point);
  }
  return { text, maths };
}

/** A character as scripts and data escape it, or as style sheets do. */
const escaped = /\\(?:u([0-9a-f]{4})|x([0-9a-f]{2})|u\{([0-9a-f]{1,6})\}|([0-9a-f]{2,6}))/gi;

/** Code points of a file beyond ASCII, those written as references or escapes included. */
export function textPoints(content: string): Set<number> {
  const points = new Set<number>();
  for (const [letter] of content.matchAll(/[^\0-\x7f]/gu)) points.add(letter.codePointAt(0) ?? 0);
  for (const [reference] of content.matchAll(/&#\w{1,8};/g))
    points.add(decoded(reference).codePointAt(0) ?? 0);
  for (const [, ...forms] of content.matchAll(escaped))
    points.add(Number.parseInt(forms.find((form) => form !== undefined) ?? '', 16));
  return points;
}
