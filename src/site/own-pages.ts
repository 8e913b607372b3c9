import type { Page } from '../journal/types.ts';

/** Pages that are listed together; those without a heading come first. */
export interface PageGroup {
  heading: string | null;
  pages: Page[];
}

/** The maker's pages by the heading that they are listed under, in their order. */
export function groupsOf(pages: readonly Page[]): PageGroup[] {
  const groups = new Map<string | null, Page[]>([[null, []]]);
  for (const page of pages) {
    const heading = page.data.group ?? null;
    groups.set(heading, [...(groups.get(heading) ?? []), page]);
  }
  return [...groups]
    .map(([heading, of]) => ({ heading, pages: of }))
    .filter(({ pages: of }) => of.length > 0);
}

/** The pages ahead of and behind one in its group. */
export function neighboursOf(page: Page, pages: readonly Page[]): { before?: Page; after?: Page } {
  const group = pages.filter(({ data }) => data.group === page.data.group);
  const position = group.indexOf(page);
  const [before, after] = [group[position - 1], group[position + 1]];
  return { ...(before ? { before } : {}), ...(after ? { after } : {}) };
}
