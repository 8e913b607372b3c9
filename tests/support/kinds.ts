import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pagesOf } from './demo-site.ts';

export interface PageKind {
  /** File of `src/pages` that makes the pages of this kind, such as `logs/[log]/index`. */
  kind: string;
  /** Addresses of all pages of the kind; the one with the most to show comes first. */
  pages: readonly string[];
}

/** Every kind of page that the project can make, each with its pages on a built site; some may have none. */
export function pageKinds(site: string): PageKind[] {
  const pages = pagesOf(site);
  return globSync('**/*.astro', { cwd: 'src/pages' })
    .map((file) => file.replaceAll('\\', '/').replace(/\.astro$/, ''))
    .sort()
    .map((kind) => {
      const fits = addressesOf(kind);
      return { kind, pages: pages.filter((page) => fits.test(page)).sort(byContent(site)) };
    });
}

/** The page with the most to show of each kind that a site has. */
export const fullestOfEachKind = (site: string): string[] =>
  pageKinds(site).flatMap(({ pages }) => pages.slice(0, 1));

/** The addresses that a file of `src/pages` answers to. */
function addressesOf(kind: string): RegExp {
  if (kind === '404') return /^\/404\.html$/;
  const path = kind.replace(/(^|\/)index$/, '').replaceAll(/\[\w+\]/g, '[^/]+');
  return new RegExp(`^/${path === '' ? '' : `${path}/`}$`);
}

const byContent = (site: string) => (a: string, b: string) => sizeOf(site, b) - sizeOf(site, a);

const sizeOf = (site: string, page: string) =>
  readFileSync(join(site, page.endsWith('/') ? `${page}index.html` : page)).length;
