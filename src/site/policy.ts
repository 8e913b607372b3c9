interface Needs {
  /** Whether the page runs the compiled code of the search index. */
  runsIndex: boolean;
  /** Whether the page is served while its journal is edited: styles then stand in the page itself. */
  isLive: boolean;
}

/** The content security policy of a page. */
export function contentPolicy({ runsIndex, isLive }: Needs): string {
  return [
    "default-src 'none'",
    `script-src 'self'${runsIndex ? " 'wasm-unsafe-eval'" : ''}`,
    `style-src 'self'${isLive ? " 'unsafe-inline'" : ''}`,
    "img-src 'self' data:",
    "font-src 'self'",
    "connect-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}
