import type { APIRoute, GetStaticPaths } from 'astro';
import { currentJournal } from '../../journal/current.ts';
import { cardPicture, forgetOtherCards } from '../../site/card-picture.ts';
import { type Card, cardsOf } from '../../site/cards.ts';

/** The picture of every page that shows a chart, for feeds and link previews. */
export const getStaticPaths = (async () => {
  const journal = currentJournal();
  const cards = [...cardsOf(journal).values()];
  await forgetOtherCards(cards, { folder: journal.folder, title: journal.settings.title });
  return cards.map((card) => ({ params: { page: card.page || undefined }, props: { card } }));
}) satisfies GetStaticPaths;

interface Props {
  card: Card;
}

export const GET: APIRoute<Props> = async ({ props: { card } }) => {
  const { folder, settings } = currentJournal();
  return new Response(new Uint8Array(await cardPicture(card, { folder, title: settings.title })));
};
