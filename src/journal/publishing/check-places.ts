import { nearestNames, type Problem, problemAt } from '../../problem/index.ts';
import { proseMessages } from '../prose/messages.ts';
import type { FragmentMention, Journal, Prose } from '../types.ts';
import { type PagePlaces, pagePlaces } from './page-places.ts';

/**
 * Checks that links to a place on a page lead to a heading of that record or to a section of its page, and that no heading
 * has the address of such a section. Pages whose places are not known, as those of records that could not be read, are
 * passed over.
 */
export function checkPlaces(journal: Journal): Problem[] {
  const pages = pagePlaces(journal);
  const { amplifiers, versions, units, logs, parts, decisions, listening, comparisons, pages: own } = journal;
  return [amplifiers, versions, units, logs, parts, decisions, listening, comparisons, own]
    .flat()
    .flatMap(({ id, prose }) => [
      ...prose.fragments.flatMap((mention) => missing(mention, pages.get(mention.page))),
      ...taken(prose, pages.get(id)),
    ]);
}

function missing({ fragment, written, place }: FragmentMention, places: PagePlaces | undefined): Problem[] {
  const known = places ? [...places.headings, ...places.others] : [];
  if (!places || known.includes(fragment)) return [];
  const fault = proseMessages.linkFragment(
    written,
    nearestNames(fragment, known),
    places.headings.slice(0, 8),
  );
  return [problemAt(place, fault)];
}

/** Two things of one address on a page: a link finds the first. */
function taken({ headings, headingPlaces }: Prose, places: PagePlaces | undefined): Problem[] {
  return headings.flatMap(({ slug, text }, index) => {
    const place = headingPlaces[index];
    if (!place || !places?.others.includes(slug)) return [];
    return [problemAt(place, proseMessages.headingTaken(text, slug))];
  });
}
