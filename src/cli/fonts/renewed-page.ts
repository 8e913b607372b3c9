import { type Preload, preloadLinks } from './preloads.ts';

/** A style sheet with font faces under its old and new name, and the fonts that its pages ask for early. */
export interface RenewedSheet {
  before: string;
  after: string;
  preloads: readonly Preload[];
  /** Names of its fonts among those that are kept for the next build. */
  kept: readonly string[];
  /** Files that it has left without use. */
  outdated: readonly string[];
}

/** A page with its style sheets under their new names, and the fonts of its first lines asked for before them. */
export function renewedPage(html: string, sheets: readonly RenewedSheet[]): string {
  return sheets.reduce((page, { before, after, preloads }) => {
    const link = `<link rel="stylesheet" href="([^"]*/)${before.replaceAll('.', '\\.')}">`;
    return page.replace(
      new RegExp(link),
      (_, address: string) =>
        `${preloadLinks(html, preloads, address)}<link rel="stylesheet" href="${address}${after}">`,
    );
  }, html);
}
