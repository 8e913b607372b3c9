/** Parts of a colour from 0 to 255: red, green, blue. */
export type Rgb = readonly [number, number, number];

/** Reads `#0f5a56`; null for anything else. */
export function readColour(text: string): Rgb | null {
  const found = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(text);
  if (!found) return null;
  const [, red = '', green = '', blue = ''] = found;
  return [Number.parseInt(red, 16), Number.parseInt(green, 16), Number.parseInt(blue, 16)];
}

/** A colour as style sheets take it: `#0f5a56`. */
export const colourText = (colour: Rgb) =>
  `#${colour.map((part) => Math.round(part).toString(16).padStart(2, '0')).join('')}`;

/**
 * Contrast of two colours, from 1 (equal) to 21 (black on white).
 *
 * @source WCAG 2.2, definition of contrast ratio, https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio
 */
export function contrastOf(one: Rgb, other: Rgb): number {
  const [darker, lighter] = [luminance(one), luminance(other)].sort((a, b) => a - b) as [number, number];
  return (lighter + 0.05) / (darker + 0.05);
}

/**
 * Light of a colour beside that of white.
 *
 * @source WCAG 2.2, definition of relative luminance, https://www.w3.org/TR/WCAG22/#dfn-relative-luminance
 */
function luminance([red, green, blue]: Rgb): number {
  return 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue);
}

function linear(part: number): number {
  const share = part / 255;
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
}
