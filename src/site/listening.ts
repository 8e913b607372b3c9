import type { Journal, ListeningSession } from '../journal/types.ts';
import { countText, levelText, probabilityText, type Titles } from '../listening/index.ts';

type Session = Pick<ListeningSession, 'data' | 'result' | 'levels' | 'sealing'>;

/** Title of an alternative of a session by its id. */
export const alternativeTitle = ({ data }: Pick<Session, 'data'>, id: string): string =>
  data.alternatives.find((one) => one.id === id)?.title ?? id;

const titlesOf = ({ data: { alternatives } }: Session): Titles => [
  alternatives[0]?.title ?? '',
  alternatives[1]?.title ?? '',
];

/** What was counted in a session. */
export const sessionCount = (session: Session): string => countText(session.result.count, titlesOf(session));

/** How far the levels of a session were matched; of one that is still to be held, that they are not yet. */
export function sessionLevels(session: Session): string {
  const { levels, data } = session;
  if (!levels && data.trials.length === 0 && data.notes.length === 0)
    return 'The levels are not matched yet.';
  return levelText(levels, (id) => alternativeTitle(session, id));
}

/** A session in a few sentences, for lists: what was counted, its probability, and the levels beside it. */
export function sessionText(session: Session): string {
  const { count, judged } = session.result;
  if (count.trials === 0) return `${sessionCount(session)} ${sessionLevels(session)}`;
  const probability = judged
    ? `Probability by chance alone: ${probabilityText(judged.pValue)}.`
    : 'Sighted, so that no probability is given.';
  return [sessionCount(session), probability, sessionLevels(session)].join(' ');
}

/** What is known of the order of the trials. */
export function sealingText({ sealing, result }: Session): string {
  if (sealing === 'verified') return 'sealed beforehand; key file and trials agree with the hash';
  if (sealing === 'not sealed')
    return result.count.isBlind ? 'not sealed beforehand' : 'known to the listener';
  return 'sealed beforehand; the key file is not opened yet';
}

type Listened = Pick<Journal, 'listening'>;

/** Sessions in which a capture is set beside what was heard. */
export const sessionsWith = (capture: string, { listening }: Listened): ListeningSession[] =>
  listening.filter(({ data }) => data.alternatives.some((one) => one.capture?.split('#')[0] === capture));

/** Sessions in which a version was an alternative. */
export const sessionsOf = (version: string, { listening }: Listened): ListeningSession[] =>
  listening.filter(({ data }) => data.alternatives.some((one) => one.version === version));
