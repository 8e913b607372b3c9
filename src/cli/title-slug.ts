import { UsageFault } from './arguments.ts';

/** A title as it stands in the name of a folder or file, and in an address. */
export function titleSlug(title: string): string {
  const plain = title
    .normalize('NFKD')
    .replaceAll(/[\p{M}'’]/gu, '')
    .toLowerCase();
  const slug = plain.replaceAll(/[^a-z0-9]+/g, '-').replaceAll(/^-+|-+$/g, '');
  if (slug !== '') return slug;
  throw new UsageFault(`The title "${title}" has no letter or digit that can stand in an address.`);
}
