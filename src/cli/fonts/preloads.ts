import { type FontFace, isFor, mathsFamily } from './font-faces.ts';

/** A font that pages ask for ahead of their style sheet, and what such a page holds. */
export interface Preload {
  file: string;
  sign: string;
}

const letterA = 0x61;

/**
 * What stands on a page that surely needs a face in its first lines or charts; nothing for one that every page needs,
 * and null for a face that waits until a browser asks for it.
 */
export function earlySign(face: FontFace): string | null {
  if (face.family === mathsFamily) return '<math';
  if (!isFor(face, letterA)) return null;
  if (face.style === 'italic') return '<p class="question"';
  return face.weights[0] > 400 ? '<p class="chart-title"' : '';
}

/** The links that ask for a page's fonts; `address` is that of the folder which holds them. */
export function preloadLinks(html: string, preloads: readonly Preload[], address: string): string {
  return preloads
    .filter(({ sign }) => html.includes(sign))
    .map(
      ({ file }) => `<link rel="preload" as="font" type="font/woff2" href="${address}${file}" crossorigin>`,
    )
    .join('');
}
