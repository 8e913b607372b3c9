import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pagesOf } from '../support/demo-site.ts';

const leastCharts = 6;

/** Pages of a kind, and what else they have to hold. */
const pageKinds: Readonly<Record<string, { address: RegExp; holds?: (html: string) => boolean }>> = {
  home: { address: /^\/$/ },
  'log with maths': { address: /^\/logs\/[^/]+\/$/, holds: hasMathsAndCharts },
  log: { address: /^\/logs\/[^/]+\/$/ },
  capture: { address: /^\/logs\/[^/]+\/[^/]+\/$/ },
  version: { address: /^\/amplifiers\/[^/]+\/v[^/]+\/$/ },
  comparison: { address: /^\/comparisons\/[^/]+\/$/ },
  methods: { address: /^\/methods\/$/ },
  overlay: { address: /^\/overlay\/$/ },
  search: { address: /^\/search\/$/ },
};

/** The page of a kind whose HTML is longest, so that every other page weighs less; null where the site has none. */
export function heaviestOf(site: string, kind: string): string | null {
  const { address, holds } = pageKinds[kind] ?? { address: /^$/ };
  const pages = pagesOf(site)
    .filter((page) => address.test(page))
    .map((page) => ({ page, html: readFileSync(join(site, page, 'index.html'), 'utf8') }))
    .filter(({ html }) => holds?.(html) ?? true);
  return pages.sort((one, other) => other.html.length - one.html.length)[0]?.page ?? null;
}

function hasMathsAndCharts(html: string): boolean {
  return html.includes('<math') && html.split('<figure class="chart"').length > leastCharts;
}
