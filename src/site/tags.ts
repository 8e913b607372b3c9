import { tagSlug } from '../journal/publishing/tags.ts';
import type { Journal, Log, Part, Version } from '../journal/types.ts';

/** What a tag is about: a tube type of the library, a part with a record, or anything else. */
export type TagKind = 'tube' | 'part' | 'topic';

/** A tag with everything that it leads to. */
export interface Tag {
  slug: string;
  name: string;
  kind: TagKind;
  /** The part of that name. */
  part: Part | null;
  /** Versions with a tube of that type. */
  versions: Version[];
  /** Newest first. */
  logs: Log[];
}

const known = new WeakMap<Journal, Tag[]>();

/** The tags of a journal by name: those of its logs, and the type of each tube that a version uses. */
export function tagsOf(journal: Journal): Tag[] {
  const found = known.get(journal) ?? gather(journal);
  known.set(journal, found);
  return found;
}

/** The tube types that a version uses, in the order of its stages. */
export function tubesOf({ data }: Version, { tubes }: Journal): string[] {
  const devices = data.stages.flatMap((stage) => ('device' in stage ? [stage.device] : []));
  return [...new Set(devices)].filter((device) => Object.hasOwn(tubes, device));
}

function gather(journal: Journal): Tag[] {
  const { logs, versions } = journal;
  const ofLogs = logs.toSorted((a, b) => (a.id < b.id ? -1 : 1)).flatMap(({ data }) => data.tags);
  const ofVersions = versions.flatMap((version) => tubesOf(version, journal));
  const names = new Map([...ofLogs, ...ofVersions].toReversed().map((name) => [tagSlug(name), name]));
  return [...names]
    .map(([slug, name]) => tagOf(slug, name, journal))
    .sort((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }));
}

function tagOf(slug: string, name: string, journal: Journal): Tag {
  const named = (text: string) => tagSlug(text) === slug;
  const part = journal.parts.find(({ data }) => named(data.title)) ?? null;
  const isTube = Object.keys(journal.tubes).some(named);
  return {
    ...{ slug, name, part },
    kind: isTube ? 'tube' : part ? 'part' : 'topic',
    versions: journal.versions.filter((version) => tubesOf(version, journal).some(named)),
    logs: journal.logs.filter(({ data }) => data.tags.some(named)),
  };
}

/** How much a tag leads to: "4 logs, 2 versions". */
export function sizeOf({ logs, versions }: Tag): string {
  const counted = [
    { number: logs.length, name: 'log' },
    { number: versions.length, name: 'version' },
  ];
  const found = counted.filter(({ number }) => number > 0);
  return found.map(({ number, name }) => `${number} ${name}${number === 1 ? '' : 's'}`).join(', ');
}
