import type { JournalSettings } from '../journal/schemas/index.ts';

/**
 * A style sheet with the colours that a journal chooses; null where it chooses none. It holds on a screen alone: paper is
 * printed black, and a reader's own choice of colours stays.
 */
export function coloursCss({ colours }: Pick<JournalSettings, 'colours'>): string | null {
  const { light, dark } = colours?.accent ?? {};
  if (light === undefined && dark === undefined) return null;
  const accent = `light-dark(${light ?? own.light}, ${dark ?? own.dark})`;
  return `@media screen and (forced-colors: none) {\n  html:root {\n    --accent: ${accent};\n  }\n}\n`;
}

/** The accent of the site, as `tokens.css` has it. */
const own = { light: '#0f5a56', dark: '#7ccbbf' } as const;
