import { colourText, contrastOf, type Rgb } from './contrast.ts';

export type Appearance = 'light' | 'dark';

/** What links, focus and states stand on: the paper, and the band behind some of them. */
export const grounds: Readonly<Record<Appearance, readonly Rgb[]>> = {
  light: [
    [0xfb, 0xfa, 0xf6],
    [0xf3, 0xef, 0xe5],
  ],
  dark: [
    [0x16, 0x18, 0x1a],
    [0x1d, 0x20, 0x23],
  ],
};

/**
 * Least contrast of text with what it stands on. Links are text, so that the 3:1 asked of marks and outlines (1.4.11)
 * is kept as well.
 *
 * @source WCAG 2.2, success criterion 1.4.3, https://www.w3.org/TR/WCAG22/#contrast-minimum
 */
export const leastContrast = 4.5;

/** Contrast of an accent with the ground that it stands out least from. */
export function contrastOnGrounds(accent: Rgb, appearance: Appearance): number {
  return Math.min(...grounds[appearance].map((ground) => contrastOf(accent, ground)));
}

/** The shade nearest to an accent that is told from its grounds: darker on light paper, lighter on dark. */
export function legibleShade(accent: Rgb, appearance: Appearance): string {
  const end = appearance === 'light' ? 0 : 255;
  const shades = Array.from({ length: 101 }, (_, step) => toward(accent, end, step / 100));
  const found = shades.find((shade) => contrastOnGrounds(shade, appearance) >= leastContrast);
  return colourText(found ?? [end, end, end]);
}

const toward = ([red, green, blue]: Rgb, end: number, share: number): Rgb => [
  Math.round(red + (end - red) * share),
  Math.round(green + (end - green) * share),
  Math.round(blue + (end - blue) * share),
];
