/** What keeps a text from being the address of a site, with how to mend it; null for a sound one. */
export function siteAddressFault(text: string): { message: string; hint: string } | null {
  if (!URL.canParse(text) || !/^https?:\/\//i.test(text)) {
    return {
      message: `"${text}" is not the address of a site.`,
      hint: 'Write it in full, for example https://example.org.',
    };
  }
  const { origin, pathname, search, hash } = new URL(text);
  if (pathname === '/' && search === '' && hash === '') return null;
  return {
    message: `"${text}" says more than where the site is: a path belongs to the command that builds it.`,
    hint: `Write ${origin} here, and build with --base ${pathname.replace(/\/?$/, '/')}.`,
  };
}
