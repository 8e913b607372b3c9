/** Results of the site's own code, kept by all that goes into them. */
export interface SiteResults {
  /** What was kept of a kind for these parts; null where nothing was. */
  get(kind: string, parts: readonly string[]): unknown;
  /** Keeps a value, which has to be whole as JSON. */
  put(kind: string, parts: readonly string[], value: unknown): Promise<void>;
}
