import { type Problem, problemAt } from '../../problem/index.ts';
import type { RawRecord } from '../records.ts';
import type { LogData } from '../schemas/index.ts';
import { publishMessages as messages } from './publish-messages.ts';

/** Letters of a tag in the address of its page, each of which may be several bytes of a file's name. */
const mostInSlug = 60;

/** A tag as it stands in the address of its page: `class AB` and `Class AB` share one, `class-ab`. */
export function tagSlug(tag: string): string {
  const plain = tag
    .normalize('NFKD')
    .replaceAll(/[\p{M}'’]/gu, '')
    .toLowerCase();
  return plain.replaceAll(/[^\p{L}\p{N}]+/gu, '-').replaceAll(/^-+|-+$/g, '');
}

function slugFault(tag: string, slug: string) {
  if (slug === '') return messages.tagWithoutName(tag);
  return slug.length > mostInSlug ? messages.tagTooLong(tag.length, mostInSlug) : null;
}

/**
 * Checks that every tag can have a page, stands once in its log, and is written in one way throughout, which is that of
 * the first log in the order of their paths.
 */
export function checkTags(logs: readonly RawRecord<LogData>[]): Problem[] {
  const first = new Map<string, { tag: string; log: string }>();
  return logs.flatMap(({ id, data, yaml }) =>
    data.tags.flatMap((tag, index) => {
      const slug = tagSlug(tag);
      const place = yaml.placeOf(['tags', index]);
      const fault = slugFault(tag, slug);
      if (fault) return [problemAt(place, fault)];
      const warn = (fault: ReturnType<typeof messages.tagTwice>) => [
        problemAt(place, { ...fault, severity: 'warning' as const }),
      ];
      if (data.tags.slice(0, index).some((other) => tagSlug(other) === slug))
        return warn(messages.tagTwice(tag));
      const known = first.get(slug);
      if (known && known.tag !== tag) return warn(messages.tagSpelling(tag, known.tag, known.log));
      if (!known) first.set(slug, { tag, log: id });
      return [];
    }),
  );
}
