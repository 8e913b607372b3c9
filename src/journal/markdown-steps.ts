import type { RehypePlugins, RemarkPlugins } from '@astrojs/markdown-remark';
import { rehypeSteps, remarkSteps } from './prose/pipeline.ts';
import { linkContext } from './resolve.ts';
import type { Journal } from './types.ts';

/** The steps that MDX records of a journal go through while the site is built. */
export function markdownSteps(
  journal: Journal,
  base: string,
): { remarkPlugins: RemarkPlugins; rehypePlugins: RehypePlugins } {
  const context = linkContext({ ...journal, root: journal.folder }, base);
  return { remarkPlugins: remarkSteps(context), rehypePlugins: rehypeSteps() };
}
