import { allDefinitions, methods } from '../figures/index.ts';
import type { Journal } from '../journal/types.ts';
import { stateText } from './claims.ts';
import { dateText } from './names.ts';
import type { SearchKind } from './search-kinds.ts';
import { sizeOf, tagsOf } from './tags.ts';

interface Entry {
  kind: SearchKind;
  /** What tells it from its like, behind its kind: dates, states, what it belongs to. */
  context: string;
}

/** A page that is found by what it shows. */
export interface PageEntry extends Entry {
  /** Path of the page without slashes at its ends. */
  page: string;
}

/** A part of a page that is found by a text of its own. */
export interface TextEntry extends Entry {
  /** Address from the root of the site. */
  address: string;
  title: string;
  paragraphs: readonly string[];
}

/** Every page of a journal that can be found; lists of records are not among them. */
export function pageEntries(journal: Journal): PageEntry[] {
  return [
    ...writings(journal),
    ...builds(journal),
    ...journal.parts.map(({ id, data }) => entry('part', id, data.kind, data.state)),
    ...journal.pages.map(({ id, data }) => entry('page', id, data.group)),
    entry('safety', 'safety'),
  ];
}

/** The sections of the methods page, and the tags, whose pages only list what other entries hold. */
export function textEntries(journal: Journal): TextEntry[] {
  const figures = allDefinitions();
  const ofMethods = methods.map(({ id, title, text, formulas }): TextEntry => {
    const meant = figures.filter(({ method }) => method === id);
    return {
      ...{ kind: 'method', context: '', address: `/methods/#${id}`, title },
      paragraphs: [
        ...meant.map(({ name, meaning }) => `${name}: ${meaning}`),
        ...text,
        ...formulas.map(({ where }) => where),
      ],
    };
  });
  const ofTags = tagsOf(journal).map((tag): TextEntry => {
    const size = sizeOf(tag);
    return {
      kind: 'tag',
      context: tag.kind,
      address: `/tags/${tag.slug}/`,
      title: tag.name,
      paragraphs: [size],
    };
  });
  return [...ofMethods, ...ofTags];
}

/** Records of a day about an amplifier, and the captures of logs. */
function writings({ amplifiers, logs, decisions, comparisons, listening }: Journal): PageEntry[] {
  const titleOf = titlesOf(amplifiers);
  return [
    ...logs.map(({ id, data }) => entry('log', id, dateText(data.date), titleOf(data.amplifier))),
    ...logs.flatMap((log) =>
      log.captures.map(({ id }) => entry('capture', id, dateText(log.data.date), log.data.title)),
    ),
    ...decisions.map((one) => entry('decision', one.id, stateText(one), dateText(one.data.date))),
    ...comparisons.map(({ id, data }) =>
      entry('comparison', id, dateText(data.date), titleOf(data.amplifier)),
    ),
    ...listening.map(({ id, data }) => entry('listening', id, data.listening, dateText(data.date))),
  ];
}

/** Amplifiers, their versions, and what was built of them. */
function builds({ amplifiers, versions, units }: Journal): PageEntry[] {
  const titleOf = titlesOf(versions);
  return [
    ...amplifiers.map(({ id, data }) => entry('amplifier', id, data.kind)),
    ...versions.map(({ id, data }) =>
      entry('version', id, data.dangerous ? 'withdrawn as dangerous' : data.state, dateText(data.date)),
    ),
    ...units.map(({ id, data }) => entry('unit', id, titleOf(data.version), dateText(data.date))),
  ];
}

const titlesOf = (records: readonly { id: string; data: { title: string } }[]) => {
  const titles = new Map(records.map(({ id, data }) => [id, data.title]));
  return (id: string) => titles.get(id) ?? id;
};

const entry = (kind: SearchKind, page: string, ...context: (string | undefined)[]): PageEntry => ({
  ...{ kind, page },
  context: context.filter(Boolean).join(' · '),
});
