/** Address of the published site as the journal or the command line states it; nothing where neither does. */
const site: string | undefined = import.meta.env.SITE;

/** True where the address of the published site is known, which feeds and previews cannot do without. */
export const siteIsKnown = Boolean(site);

/** An address of the site in full, as other sites need it; null where the site's own address is not known. */
export function fullAddress(address: string): string | null {
  return site ? new URL(address, site).href : null;
}
