import type { Journal } from '../journal/types.ts';
import { fileAddress } from './address.ts';
import { fullAddress, siteIsKnown } from './canonical.ts';
import {
  type FirstChart,
  firstChartOfCapture,
  firstChartOfComparison,
  firstChartOfLog,
  firstChartOfPage,
  firstChartOfVersion,
  firstOf,
} from './first-chart.ts';

/** The picture that stands for a page elsewhere: its first chart. */
export interface Card {
  /** Path of the page without slashes at its ends. */
  page: string;
  title: string;
  chart: FirstChart;
}

/** Width and height of every card in pixels, the shape that link previews show uncut. */
export const cardSize = { width: 1200, height: 630 } as const;

const known = new WeakMap<Journal, ReadonlyMap<string, Card>>();

/** The cards of a journal by page; none where the site's address is not known, as nothing could name them. */
export function cardsOf(journal: Journal): ReadonlyMap<string, Card> {
  const found = known.get(journal) ?? (siteIsKnown ? gather(journal) : new Map<string, Card>());
  known.set(journal, found);
  return found;
}

/** An amplifier is shown by its newest version, and the journal by its newest log. */
function gather(journal: Journal): ReadonlyMap<string, Card> {
  const { settings, amplifiers, logs, versions, comparisons, pages } = journal;
  const captures = logs.flatMap((log) => log.captures);
  const ofAmplifiers = amplifiers.map((amplifier) => {
    const newest = amplifier.versions.toSorted((a, b) => (a.data.date < b.data.date ? 1 : -1));
    return cardOf(
      amplifier,
      firstOf(newest, (version) => [firstChartOfVersion(version)]),
    );
  });
  const cards = [
    cardOf(
      { id: '', data: settings },
      firstOf(logs, (log) => [firstChartOfLog(log)]),
    ),
    ...ofAmplifiers,
    ...logs.map((log) => cardOf(log, firstChartOfLog(log))),
    ...captures.map((capture) => cardOf(capture, firstChartOfCapture(capture))),
    ...versions.map((version) => cardOf(version, firstChartOfVersion(version))),
    ...comparisons.map((comparison) => cardOf(comparison, firstChartOfComparison(comparison))),
    ...pages.map((page) => cardOf(page, firstChartOfPage(page, captures))),
  ].flat();
  return new Map(cards.map((card) => [card.page, card]));
}

const cardOf = ({ id, data }: { id: string; data: { title: string } }, chart: FirstChart | null): Card[] =>
  chart ? [{ page: id, title: data.title, chart }] : [];

/** What a picture element elsewhere needs of a card. */
export interface CardLink {
  address: string;
  alt: string;
}

/** Where the card of a page stands in full, and what it shows in words; null for a page without a card. */
export function cardLink(page: string, journal: Journal): CardLink | null {
  const card = cardsOf(journal).get(page);
  const address = card && fullAddress(fileAddress(page === '' ? 'card.png' : `${page}/card.png`));
  return card && address
    ? { address, alt: `${card.chart.text.title}. ${card.chart.text.description}` }
    : null;
}
