import type { RSSFeedItem } from '@astrojs/rss';
import { escapeText } from '../charts/svg/tree.ts';
import { definitionOf, figureText } from '../figures/index.ts';
import type { Journal, KeyFigure, Log } from '../journal/types.ts';
import { pageAddress } from './address.ts';
import { fullAddress } from './canonical.ts';
import { cardLink, cardSize } from './cards.ts';
import { allDangers, type Danger } from './dangers.ts';
import { inventedText } from './invented.ts';
import { amplifierTitle, versionTitle } from './names.ts';
import { safetySentences } from './safety.ts';

/** Logs in the feed; whoever follows a journal has seen the older ones. */
const mostLogs = 100;

/**
 * The entries of the feed: what was withdrawn as dangerous first, then the newest logs, the newest first. Every address is
 * in full, and no text is taken from rendered prose, whose pictures have no final address yet.
 */
export function feedItems(journal: Journal): RSSFeedItem[] {
  return [
    ...allDangers(journal).map((danger) => dangerItem(danger, journal)),
    ...journal.logs.slice(0, mostLogs).map((log) => logItem(log, journal)),
  ];
}

/** When it was withdrawn is known where a decision says so. */
function dangerItem({ amplifier, version, reason, decisions }: Danger, journal: Journal): RSSFeedItem {
  const builds = version ? versionTitle(version) : `every build of ${amplifierTitle(amplifier)}`;
  const dates = decisions.map(({ data }) => data.date).sort();
  const consequences = decisions.flatMap(({ data }) => data.consequences);
  const [newest] = dates.reverse();
  return {
    title: `Withdrawn as dangerous: ${builds}`,
    link: link(decisions[0]?.id ?? version ?? amplifier),
    ...(newest === undefined ? {} : { pubDate: dayOf(newest) }),
    description: reason,
    content: [
      paragraph(`<strong>Do not use ${escapeText(builds)} any longer.</strong> ${escapeText(reason)}`),
      ...consequences.map((consequence) => paragraph(escapeText(consequence))),
      ...decisions.map(({ id, data }) => paragraph(`Decided in ${anchor(id, data.title)}`)),
      paragraph(
        version ? anchor(version, versionTitle(version)) : anchor(amplifier, amplifierTitle(amplifier)),
      ),
      notice(journal),
    ].join(''),
  };
}

function logItem({ id, data, keyFigures }: Log, journal: Journal): RSSFeedItem {
  const answer = data.answer ?? 'Not answered yet.';
  return {
    title: data.title,
    link: link(id),
    pubDate: dayOf(data.date),
    description: `${data.question} ${answer}`,
    categories: data.tags,
    content: [
      paragraph(`<em>${escapeText(data.question)}</em>`),
      paragraph(escapeText(answer)),
      figureList(keyFigures),
      picture(id, journal),
      notice(journal),
      paragraph(anchor(id, 'The whole log, with its captures and methods')),
    ].join(''),
  };
}

function figureList(keyFigures: readonly KeyFigure[]): string {
  const entries = keyFigures.map(({ figure, title, page, anchor: place }) => {
    const name = [definitionOf(figure.id)?.name ?? figure.id, figure.subject].filter(Boolean).join(', ');
    return `<li>${escapeText(`${name}: ${figureText(figure)}`)} (${anchor(page, title, place)})</li>`;
  });
  return entries.length > 0 ? `<ul>${entries.join('')}</ul>` : '';
}

function picture(page: string, journal: Journal): string {
  const card = cardLink(page, journal);
  if (!card) return '';
  const { width, height } = cardSize;
  return paragraph(
    `<img src="${escapeText(card.address)}" alt="${escapeText(card.alt)}" width="${width}" height="${height}"/>`,
  );
}

/** The safety notice, and that the data are invented where they are. */
function notice({ settings }: Journal): string {
  const sentences = [...safetySentences, ...(settings.safety ? [settings.safety] : [])];
  const safety = `<strong>${escapeText(sentences.join(' '))}</strong> ${anchor('safety', 'Before you open anything')}`;
  return paragraph(safety) + (settings.invented ? paragraph(escapeText(inventedText)) : '');
}

const paragraph = (markup: string) => `<p>${markup}</p>`;

const link = (page: string, place?: string) => fullAddress(pageAddress(page, place)) ?? '';

const anchor = (page: string, text: string, place?: string) =>
  `<a href="${escapeText(link(page, place))}">${escapeText(text)}</a>`;

const dayOf = (date: string) => new Date(`${date}T00:00:00Z`);
