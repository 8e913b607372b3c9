/** What a search came to: how many of the kind looked at, and of all kinds. */
export interface Outcome {
  text: string;
  shown: number;
  all: number;
  /** Name of the kind looked at, as of several; null for all kinds. */
  kind: string | null;
}

/** The outcome in a sentence, which is read out where a page is heard. */
export function outcomeText({ text, shown, all, kind }: Outcome): string {
  if (all === 0) return `Nothing has all of the words “${text}”. Try fewer of them, or how one begins.`;
  if (kind === null) return `${counted(all)} for “${text}”.`;
  return `${kind}: ${shown} of ${counted(all)} for “${text}”.`;
}

const counted = (number: number) => `${number} ${number === 1 ? 'result' : 'results'}`;
