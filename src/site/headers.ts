import { contentPolicy } from './policy.ts';

export interface SiteFolders {
  /** Address prefix with a slash at both ends. */
  base: string;
  /** Names of what stands at the top of the site, folders and pages. */
  names: readonly string[];
}

/** Said of every address: nothing is guessed from content, and other sites learn the site's name alone. */
const always = ['X-Content-Type-Options: nosniff', 'Referrer-Policy: strict-origin-when-cross-origin'];

/** Folder of the page whose policy allows compiled code, with its index. */
const searching = 'search';

/**
 * What a host is asked to send with the pages, in the form that several static hosts read from `_headers`: an
 * address, then its headers, indented. Where two rules fit, hosts join their values or take the later one, and
 * browsers hold every policy that they are given: the first rule therefore is what all pages bear, and each folder
 * but the search has the stricter one besides.
 */
export function headersText({ base, names }: SiteFolders): string {
  const strict = policyLine(false);
  const places = names.filter((name) => name !== searching).toSorted();
  const rules = [
    rule(`${base}*`, [policyLine(true), ...always]),
    rule(base, [strict]),
    ...places.map((name) => rule(`${base}${encodeURI(name)}${name.endsWith('.html') ? '' : '/*'}`, [strict])),
  ];
  return `${rules.join('\n\n')}\n`;
}

const rule = (address: string, headers: readonly string[]) =>
  [address, ...headers.map((header) => `  ${header}`)].join('\n');

/** Pages may not be framed: that can be said in a header alone. */
const policyLine = (runsIndex: boolean) =>
  `Content-Security-Policy: ${contentPolicy({ runsIndex, isLive: false })}; frame-ancestors 'none'`;
