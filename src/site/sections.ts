import { currentJournal } from '../journal/current.ts';
import type { NamedList } from '../journal/schemas/words.ts';

/** Lists of records as the site calls them unless the journal has other words. */
const listNames: Readonly<Record<NamedList, string>> = {
  logs: 'Logs',
  amplifiers: 'Amplifiers',
  parts: 'Parts',
  comparisons: 'Comparisons',
  decisions: 'Decisions',
  listening: 'Listening',
  pages: 'Pages',
};

/** What the site calls a list of records. */
export function listName(list: NamedList): string {
  return currentJournal().settings.words[list] ?? listNames[list];
}

/** The name of a page in a trail: that of the list where it is one. */
export function trailName({ name, path }: { name: string; path: string }): string {
  return Object.hasOwn(listNames, path) ? listName(path as NamedList) : name;
}

/** An entry of the main navigation. */
export interface Section {
  id: string;
  name: string;
  path: string;
}

/** The main navigation: what the journal has records of, its own pages that ask for it, and what every site has. */
export function navigation(): Section[] {
  const { logs, amplifiers, parts, comparisons, decisions, listening, pages } = currentJournal();
  const list = (id: NamedList, isShown: boolean): Section[] =>
    isShown ? [{ id, name: listName(id), path: id }] : [];
  const alone = pages.length > 0 && logs.length === 0;
  const own = pages.flatMap(({ id, data }) =>
    data.navigation === undefined ? [] : [{ id, name: data.navigation, path: id }],
  );
  return [
    ...list('logs', !alone),
    ...list('amplifiers', !alone || amplifiers.length > 0),
    ...list('parts', parts.length > 0),
    ...list('comparisons', comparisons.length > 0),
    ...(alone ? [] : [{ id: 'overlay', name: 'Overlay', path: 'overlay' }]),
    ...list('decisions', decisions.length > 0),
    ...list('listening', listening.length > 0),
    ...own,
    ...list('pages', own.length < pages.length),
    ...['Methods', 'Safety', 'Search'].map((name) => ({
      ...{ id: name.toLowerCase(), name, path: name.toLowerCase() },
    })),
  ];
}
