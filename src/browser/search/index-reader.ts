import { hasWords } from './has-words.ts';

/** One place of a page that was found. */
export interface FoundSection {
  title: string;
  url: string;
}

/** A page that was found. */
export interface FoundPage {
  url: string;
  /** Escaped HTML with the words that were found in `<mark>`. */
  excerpt: string;
  /** All words of the page that are searched. */
  content: string;
  meta: { title: string; kind: string; context?: string };
  sub_results: FoundSection[];
}

/** What a search gives: pages to load in the order of how well they fit, and how many there are of each kind. */
export interface Found {
  results: { data(): Promise<FoundPage> }[];
  totalFilters: { kind?: Record<string, number> };
}

interface SearchIndex {
  filters(): Promise<unknown>;
  search(text: string, options: { filters: { kind?: string } }): Promise<Found>;
}

/** The part of the index's own module that is used. */
interface IndexModule {
  createInstance(options: { baseUrl: string; noWorker: boolean; excerptEllipsis: string }): SearchIndex;
}

/** What nothing fits. */
export const nothing: Found = { results: [], totalFilters: {} };

/** Finds what holds a text, of one kind or of all where it is empty. */
export type Find = (text: string, kind: string) => Promise<Found>;

/** Loads the index of the site at an address; rejects where there is none. */
export async function openIndex(address: string, baseUrl: string): Promise<Find> {
  const { createInstance }: IndexModule = await import(/* @vite-ignore */ address);
  const index = createInstance({ baseUrl, noWorker: true, excerptEllipsis: '…' });
  await index.filters();
  return async (text, kind) => {
    const found = await index.search(text, { filters: kind === '' ? {} : { kind } });
    const [best] =
      found.results.length > 0 ? found.results : (await index.search(text, { filters: {} })).results;
    const page = await best?.data();
    return page && hasWords(page.content, text) ? found : nothing;
  };
}
