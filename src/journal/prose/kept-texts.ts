import { codeVersion } from '../store/code-version.ts';
import { keepJson, keptJson } from '../store/kept-json.ts';
import { resultKey } from '../store/result-key.ts';
import type { ResultStore } from '../store/result-store.ts';
import { answersTo, type Questions } from './asked-links.ts';
import type { LinkContext } from './links.ts';
import type { ProseSource, RenderedProse } from './render.ts';

/** A text as it was rendered, with what it asked of the rest of the journal and the answers it got. */
export interface KeptText {
  rendered: RenderedProse;
  questions: Questions;
  answers: string;
}

/** The rooms whose code takes part in rendering. */
export const proseRooms: readonly string[] = [
  ...['problem', 'quantity', 'capture', 'signal', 'load', 'listening', 'figures', 'compare', 'journal'],
];

const packages = [
  ...['@astrojs/markdown-remark', '@mdx-js/mdx', 'remark-gfm', 'remark-math', 'remark-directive'],
  ...['rehype-katex', 'katex', 'unist-util-visit', 'zod'],
];

/** Rendered texts kept on disk; each counts only while the journal answers its questions as it did. */
export function keptTexts(store: ResultStore | null, context: LinkContext) {
  const keyOf = ({ file, path, body, bodyLine }: ProseSource) =>
    resultKey(
      'prose',
      codeVersion(proseRooms, packages),
      JSON.stringify({ ...about, file, path, bodyLine }),
      body,
    );
  const about = { root: context.root, base: context.base };
  return {
    get(source: ProseSource): KeptText | null {
      const text = store && keptJson<KeptText>(store, keyOf(source));
      return text && answersTo(text.questions, context) === text.answers ? text : null;
    },
    async put(source: ProseSource, text: KeptText): Promise<void> {
      if (store) await keepJson(store, keyOf(source), text);
    },
  };
}
