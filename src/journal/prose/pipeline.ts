import type { RehypePlugins, RemarkPlugins } from '@astrojs/markdown-remark';
import rehypeKatex from 'rehype-katex';
import remarkDirective from 'remark-directive';
import remarkMath from 'remark-math';
import { directives } from './directives.ts';
import { htmlGuard } from './html-guard.ts';
import { katexFaults } from './katex-faults.ts';
import { type LinkContext, links } from './links.ts';
import { money } from './money.ts';
import { pictures } from './pictures.ts';
import { scrollTables } from './scroll-tables.ts';

/** Steps on the Markdown tree, the same for .md and .mdx. */
export function remarkSteps(context: LinkContext): RemarkPlugins {
  return [remarkMath, money, remarkDirective, directives, htmlGuard, [links, context]];
}

/** Steps on the HTML tree: mathematics as MathML, without style sheet or fonts of its own. */
export function rehypeSteps(): RehypePlugins {
  return [[rehypeKatex, { output: 'mathml', strict: 'error', maxSize: 20 }], katexFaults, scrollTables, pictures];
}
