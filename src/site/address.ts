/** Addresses of the site under its base path; every link of a page goes through here. */
const base = import.meta.env.BASE_URL.replace(/\/?$/, '/');

/** Address of a page by its path without slashes at the ends: a record's id, `methods`, or '' for home. */
export function pageAddress(path: string, anchor?: string): string {
  const address = path === '' ? base : `${base}${path}/`;
  return anchor === undefined ? address : `${address}#${anchor}`;
}

/** Address of a published file, such as a capture's CSV. */
export function fileAddress(path: string): string {
  return base + path.split('/').map(encodeURIComponent).join('/');
}
