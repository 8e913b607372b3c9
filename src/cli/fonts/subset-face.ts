import { createHash } from 'node:crypto';
import path from 'node:path';
import { keptOrMade } from '../../site/kept-files.ts';
import { type FontFace, isFor, mathsFamily } from './font-faces.ts';
import type { SiteCharacters } from './site-characters.ts';

/** Part of every key, so that a change of how fonts are cut cuts all of them anew. */
const cut = 'subset-font 2.9.0, 1';

/** Kerning, ligatures, and figures of one width, which the style sheets ask for. */
const textFeatures = ['kern', 'liga', 'tnum', 'lnum', 'ccmp', 'locl', 'mark', 'mkmk'];
/** Letters drawn for indexes, and accents on low letters and without a dot. */
const mathsFeatures = ['ssty', 'dtls', 'flac', 'ccmp', 'mark', 'mkmk'];

/** The characters of a site that a face is used for, in order. */
export function charactersOf(face: FontFace, { text, maths }: SiteCharacters): string {
  const points = face.family === mathsFamily ? maths : text;
  return [...points]
    .filter((point) => isFor(face, point))
    .sort((one, other) => one - other)
    .map((point) => String.fromCodePoint(point))
    .join('');
}

/** A face's font with these characters alone, cut once for what goes into it and kept in a folder. */
export async function subsetFace(
  face: FontFace,
  { font, characters, folder }: { font: Buffer; characters: string; folder: string },
): Promise<{ bytes: Buffer; kept: string }> {
  const kept = keyOf([cut, ...face.weights.map(String), face.family, characters], font);
  const file = path.join(folder, kept);
  return { bytes: await keptOrMade(file, () => subset(face, font, characters)), kept };
}

function keyOf(words: readonly string[], font: Buffer): string {
  return `${createHash('sha256').update(JSON.stringify(words)).update(font).digest('hex').slice(0, 32)}.woff2`;
}

/** Hints stay in the fonts of small text; formulas are large, and their font's hints weigh as much as its letters. */
async function subset({ family, weights }: FontFace, font: Buffer, characters: string): Promise<Buffer> {
  const { default: subsetFont } = await import('subset-font');
  const [min, max] = weights;
  return subsetFont(font, characters, {
    targetFormat: 'woff2',
    keepFeatures: family === mathsFamily ? mathsFeatures : textFeatures,
    noHinting: family === mathsFamily,
    ...(min < max ? { variationAxes: { wght: { min, max } } } : {}),
  });
}
