import { pageAddress } from './address.ts';

/** A page's path without slashes at its ends, from its address under the base path; '' for home. */
export function pagePath(pathname: string): string {
  const home = pageAddress('');
  const below = pathname.startsWith(home) ? pathname.slice(home.length) : pathname;
  return decodeURI(below).replaceAll(/^\/+|\/+$/g, '');
}
