import type { Amplifier, Journal, Part } from '../journal/types.ts';
import { versionsWith } from './part-facts.ts';

/** A question about an amplifier that has no answer yet. */
export interface OpenQuestion {
  text: string;
  /** The record that asks it; null for one of the amplifier or of the journal. */
  record: { id: string; title: string; kind: 'decision' | 'log' } | null;
}

type Asking = Pick<Journal, 'settings' | 'decisions' | 'logs'>;

/** Open decisions, logs without an answer, the amplifier's own questions, and those of the journal that name it. */
export function openQuestions(
  { id, data }: Amplifier,
  { settings, decisions, logs }: Asking,
): OpenQuestion[] {
  const asked = (
    kind: 'decision' | 'log',
    records: readonly { id: string; data: { title: string; question: string } }[],
  ) =>
    records.map((record) => ({
      text: record.data.question,
      record: { id: record.id, title: record.data.title, kind },
    }));
  const named = settings.openQuestions.filter((question) => namesIt(question, data.title));
  return [
    ...asked(
      'decision',
      decisions.filter((one) => one.data.amplifier === id && one.data.state === 'open'),
    ),
    ...asked(
      'log',
      logs.filter((one) => one.data.amplifier === id && one.data.answer === undefined),
    ),
    ...[...data.openQuestions, ...named].map((text) => ({ text, record: null })),
  ];
}

/** True where a title stands in a text as a word of its own. */
function namesIt(text: string, title: string): boolean {
  const isLetter = (character: string | undefined) =>
    character !== undefined && /[\p{L}\p{N}]/u.test(character);
  for (let at = text.indexOf(title); at >= 0; at = text.indexOf(title, at + 1)) {
    if (!isLetter(text[at - 1]) && !isLetter(text[at + title.length])) return true;
  }
  return false;
}

/** A part that an amplifier or a decision about it waits for. */
export interface AwaitedPart {
  part: Part;
  /** Decisions that have it among their options, and versions that name it. */
  for: { id: string; title: string }[];
}

/** Parts of an amplifier that are ordered, to be wound or to be borrowed. */
export function awaitedParts(
  { id, versions }: Amplifier,
  { parts, decisions }: Pick<Journal, 'parts' | 'decisions'>,
): AwaitedPart[] {
  const own = decisions.filter(({ data }) => data.amplifier === id);
  return parts
    .filter(({ data }) => data.state !== undefined && data.state !== 'in hand')
    .map((part) => {
      const considering = own.filter(({ data }) => data.options.some((option) => option.part === part.id));
      const users = [...considering, ...versionsWith(part.id, versions)];
      return { part, for: users.map((user) => ({ id: user.id, title: user.data.title })) };
    })
    .filter((awaited) => awaited.for.length > 0);
}
