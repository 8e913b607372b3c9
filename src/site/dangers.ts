import type { Decision, Journal, Version } from '../journal/types.ts';

/** What a page shows: an amplifier, and the versions of it that are built or measured there. */
interface Shown {
  amplifier: string;
  /** Null where the page is about all versions. */
  versions: readonly string[] | null;
}

/** A reason why a build must no longer be used. */
export interface Danger {
  amplifier: string;
  /** The version that it concerns; null for every build of the amplifier. */
  version: string | null;
  reason: string;
  decisions: readonly Decision[];
}

type Warning = Pick<Journal, 'versions' | 'decisions'>;

/** Every version and decision that is withdrawn as dangerous, versions first; a decision about one stands with it. */
export function allDangers({ versions, decisions }: Warning): Danger[] {
  const withdrawn = versions.filter(({ data }) => data.dangerous);
  const dangerous = decisions.filter(({ data }) => data.dangerous);
  const ids = withdrawn.map(({ id }) => id);
  return [
    ...withdrawn.map((version) => ofVersion(version, dangerous)),
    ...dangerous.filter(({ data }) => !ids.includes(data.version ?? '')).map(ofDecision),
  ];
}

const ofVersion = ({ id, amplifier, data }: Version, decisions: readonly Decision[]): Danger => ({
  ...{ amplifier, version: id, reason: data.reason ?? data.summary },
  decisions: decisions.filter((decision) => decision.data.version === id),
});

const ofDecision = (decision: Decision): Danger => ({
  amplifier: decision.data.amplifier,
  version: decision.data.version ?? null,
  reason: decision.data.decision ?? decision.data.question,
  decisions: [decision],
});

/** The dangers that concern what a page shows; one of no version in particular concerns every build. */
export function dangersTo({ amplifier, versions }: Shown, journal: Warning): Danger[] {
  return allDangers(journal).filter(
    (danger) =>
      danger.amplifier === amplifier &&
      (versions === null || danger.version === null || versions.includes(danger.version)),
  );
}
