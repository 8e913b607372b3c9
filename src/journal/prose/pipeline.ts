import type { RehypePlugins, RemarkPlugins } from '@astrojs/markdown-remark';
import rehypeKatex from 'rehype-katex';
import remarkDirective from 'remark-directive';
import remarkMath from 'remark-math';
import { codeColours } from './code-colours.ts';
import { depthGuard } from './depth-guard.ts';
import { directives } from './directives.ts';
import { elements } from './elements.ts';
import { formulaArguments } from './formula-arguments.ts';
import { formulaBars } from './formula-bars.ts';
import { formulaOptions, formulas } from './formulas.ts';
import { headings } from './headings.ts';
import { htmlGuard } from './html-guard.ts';
import { type LinkContext, links } from './links.ts';
import { pictures } from './pictures.ts';
import { prices } from './prices.ts';
import { scrollTables } from './scroll-tables.ts';

/** Steps on the Markdown tree, the same for .md and .mdx. */
export function remarkSteps(context: LinkContext): RemarkPlugins {
  return [
    ...[
      depthGuard,
      remarkMath,
      prices,
      formulas,
      remarkDirective,
      directives,
      htmlGuard,
      headings,
      codeColours,
    ],
    [elements, context],
    [links, context],
  ];
}

/** Steps on the HTML tree. */
export function rehypeSteps(): RehypePlugins {
  return [[rehypeKatex, formulaOptions], formulaArguments, formulaBars, scrollTables, pictures];
}
