import rss from '@astrojs/rss';
import type { APIRoute, GetStaticPaths } from 'astro';
import { escapeText } from '../charts/svg/tree.ts';
import { currentJournal } from '../journal/current.ts';
import { fileAddress, pageAddress } from '../site/address.ts';
import { fullAddress, siteIsKnown } from '../site/canonical.ts';
import { feedItems } from '../site/feed.ts';

/** A feed names its entries in full, and so there is none where the address of the site is not known. */
export const getStaticPaths = (() =>
  siteIsKnown ? [{ params: { feed: 'feed' } }] : []) satisfies GetStaticPaths;

export const GET: APIRoute = () => {
  const journal = currentJournal();
  const { title, tagline, about } = journal.settings;
  const own = escapeText(fullAddress(fileAddress('feed.xml')) ?? '');
  return rss({
    title,
    description: tagline ?? about ?? title,
    site: fullAddress(pageAddress('')) ?? '',
    items: feedItems(journal),
    xmlns: { atom: 'http://www.w3.org/2005/Atom' },
    customData: `<language>en</language><atom:link href="${own}" rel="self" type="application/rss+xml"/>`,
  });
};
