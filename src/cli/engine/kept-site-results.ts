import { codeVersion } from '../../journal/store/code-version.ts';
import { keepJson, keptJson } from '../../journal/store/kept-json.ts';
import { resultKey } from '../../journal/store/result-key.ts';
import type { ResultStore } from '../../journal/store/result-store.ts';
import type { SiteResults } from '../../site/site-results.ts';

/** The rooms whose code takes part in charts and curves of captures. */
export const siteRooms: readonly string[] = [
  ...['problem', 'quantity', 'capture', 'signal', 'load', 'listening', 'figures', 'compare'],
  ...['charts', 'overlay', 'journal', 'site'],
];

const packages = ['vega', 'vega-lite', 'fft.js', 'ml-matrix'];

/** Results of the site in a store, and the means to wait for what is being written. */
export interface KeptSiteResults extends SiteResults {
  settled(): Promise<unknown>;
}

/** Keeps results of the site; `onResult` is told whether each was kept or has just been made. */
export function keptSiteResults(
  store: ResultStore,
  onResult: (origin: 'kept' | 'computed') => void,
): KeptSiteResults {
  const writing = new Set<Promise<void>>();
  const keyOf = (kind: string, parts: readonly string[]) =>
    resultKey(`site ${kind}`, codeVersion(siteRooms, packages), ...parts);
  return {
    get(kind, parts) {
      const value = keptJson(store, keyOf(kind, parts));
      if (value !== null) onResult('kept');
      return value;
    },
    put(kind, parts, value) {
      onResult('computed');
      const written = keepJson(store, keyOf(kind, parts), value);
      writing.add(written);
      return written.finally(() => writing.delete(written));
    },
    settled: () => Promise.all(writing),
  };
}
