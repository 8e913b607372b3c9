import type { RawRecord } from '../records.ts';
import type { PageData } from '../schemas/index.ts';
import type { Page, Prose } from '../types.ts';

/** The maker's own pages in the order in which they are listed. */
export function resolvePages(
  records: readonly RawRecord<PageData>[],
  proseOf: (record: RawRecord<unknown>) => Prose,
): Page[] {
  const pages = records.map((record): Page => {
    const { id, file, data } = record;
    return { id, file, data, prose: proseOf(record) };
  });
  return pages.sort(asListed);
}

/** By their stated order; those without one follow, by title. */
function asListed(a: Page, b: Page): number {
  const [first, second] = [a.data.order ?? Infinity, b.data.order ?? Infinity];
  if (first !== second) return first < second ? -1 : 1;
  return a.data.title < b.data.title ? -1 : 1;
}
