import type { ResultStore } from '../store/result-store.ts';
import { answersTo, asked } from './asked-links.ts';
import { type KeptText, keptTexts } from './kept-texts.ts';
import type { LinkContext } from './links.ts';
import { type ProseSource, proseRenderer } from './render.ts';

export interface TextOptions {
  /** Where rendered texts are kept for other processes; null for nowhere. */
  store: ResultStore | null;
  /** Is told of each text whether it was kept or has been rendered now. */
  onText: (origin: 'kept' | 'computed') => void;
}

/** Renders the texts of a journal, one at a time; what was kept of an earlier rendering is not made again. */
export async function textsIn(
  context: LinkContext,
  { store, onText }: TextOptions,
): Promise<(source: ProseSource) => Promise<KeptText>> {
  const noting = asked(context);
  const render = await proseRenderer(noting.context);
  const kept = keptTexts(store, context);
  return async (source) => {
    const known = kept.get(source);
    onText(known ? 'kept' : 'computed');
    if (known) return known;
    noting.taken();
    const rendered = await render(source);
    const questions = noting.taken();
    const text = { rendered, questions, answers: answersTo(questions, context) };
    await kept.put(source, text);
    return text;
  };
}
