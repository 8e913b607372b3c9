import { chartFont, colour, fontSize } from '../charts/theme.ts';

/** One element of a drawing; `text` is its content. */
export interface Mark {
  tag: 'path' | 'line' | 'text' | 'circle';
  attributes: Readonly<Record<string, string | number>>;
  text?: string;
}

/** A text of a drawing. */
export function words(
  text: string,
  place: { x: number; y: number },
  anchor: 'start' | 'middle' | 'end',
  tone: 'ink' | 'soft',
): Mark {
  return {
    tag: 'text',
    attributes: {
      ...place,
      'text-anchor': anchor,
      fill: colour(tone),
      'font-family': chartFont,
      'font-size': fontSize,
    },
    text,
  };
}
