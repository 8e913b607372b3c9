import type { Decision } from '../journal/types.ts';

/** What a page shows: an amplifier, and the versions of it that are built or measured there. */
interface Shown {
  amplifier: string;
  /** Null where the page is about all versions. */
  versions: readonly string[] | null;
}

/**
 * Decisions withdrawn as dangerous that concern what a page shows. One that names no version concerns every build of its
 * amplifier.
 */
export function dangersTo({ amplifier, versions }: Shown, decisions: readonly Decision[]): Decision[] {
  return decisions.filter(({ data }) => {
    if (!data.dangerous || data.amplifier !== amplifier) return false;
    return versions === null || data.version === undefined || versions.includes(data.version);
  });
}
