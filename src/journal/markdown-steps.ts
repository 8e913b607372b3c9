import type { RehypePlugins, RemarkPlugins } from '@astrojs/markdown-remark';
import { currentJournal } from './current.ts';
import { linkContext } from './link-context.ts';
import type { LinkContext } from './prose/links.ts';
import { rehypeSteps, remarkSteps } from './prose/pipeline.ts';
import type { Journal } from './types.ts';

/** The steps that MDX records of the journal in a folder go through while the site is built. */
export function markdownSteps(
  folder: string,
  base: string,
): { remarkPlugins: RemarkPlugins; rehypePlugins: RehypePlugins } {
  return { remarkPlugins: remarkSteps(currentContext(folder, base)), rehypePlugins: rehypeSteps() };
}

/** A context that answers from the journal as it is when it is asked, which a live site reads again and again. */
function currentContext(root: string, base: string): LinkContext {
  let made: { journal: Journal; context: LinkContext } | null = null;
  const now = (): LinkContext => {
    const journal = currentJournal();
    if (made?.journal !== journal) made = { journal, context: linkContext({ ...journal, root }, base) };
    return made.context;
  };
  return {
    ...{ root, base },
    get files() {
      return now().files;
    },
    get ids() {
      return now().ids;
    },
    get captures() {
      return now().captures;
    },
  };
}
