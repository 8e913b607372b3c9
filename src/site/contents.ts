/** A heading of a page that has an address. */
export interface PageHeading {
  id: string;
  /** Its text as HTML without tags. */
  text: string;
  /** Whether its section is shown only where scripts run. */
  needsScript: boolean;
}

/** Headings of the second and third level with an id, in the order of the page. */
const headings = /<h([23])((?:\s[^>]*)?\sid="([^"]+)"[^>]*)>([\s\S]*?)<\/h\1>/g;

/** The sections of a rendered page: its headings of the second level that have an address. */
export function sectionsOf(html: string): PageHeading[] {
  return [...html.matchAll(headings)]
    .filter(([, level]) => level === '2')
    .map(([, , attributes = '', id = '', inner = '']) => ({
      id,
      text: plain(inner),
      needsScript: attributes.includes('needs-script'),
    }));
}

const plain = (inner: string) =>
  inner
    .replaceAll(/<[^>]*>/g, '')
    .replaceAll(/\s+/g, ' ')
    .trim();

/** A rendered page in which each heading that has an address shows it to the mouse; the list of sections serves others. */
export function withAddresses(html: string): string {
  return html.replaceAll(
    headings,
    (_whole, level: string, attributes: string, id: string, inner: string) =>
      `<h${level}${attributes}>${inner}<a class="address" href="#${id}" aria-hidden="true" tabindex="-1">#</a></h${level}>`,
  );
}
