import { pathToFileURL } from 'node:url';
import { createMarkdownProcessor } from '@astrojs/markdown-remark';
import { compile } from '@mdx-js/mdx';
import remarkGfm from 'remark-gfm';
import { VFile } from 'vfile';
import { type Problem, problemAt } from '../../problem/index.ts';
import { messages } from '../messages.ts';
import type { Heading, Prose } from '../types.ts';
import type { LinkContext } from './links.ts';
import { rehypeSteps, remarkSteps } from './pipeline.ts';
import type { ProseNotes } from './report.ts';

/** A record's body before rendering. */
export interface ProseSource {
  /** Path relative to the journal. */
  file: string;
  /** Absolute path. */
  path: string;
  body: string;
  bodyLine: number;
}

type Rendered = Pick<Prose, 'html' | 'headings' | 'imagePaths'> & { notes: ProseNotes };

/** Renders the bodies of one journal's records; every step's faults come back as problems. */
export async function proseRenderer(context: LinkContext) {
  const markdown = await createMarkdownProcessor({
    syntaxHighlight: 'prism',
    remarkPlugins: remarkSteps(context),
    rehypePlugins: rehypeSteps(),
  });
  return async (source: ProseSource): Promise<{ prose: Prose; problems: Problem[] }> => {
    return source.file.endsWith('.mdx')
      ? compileMdx(source, context)
      : finish(source, 'md', await renderMarkdown(markdown, source, pathToFileURL(source.path)));
  };
}

/** Blank lines stand in for the frontmatter, so that positions in the body are positions in the file. */
const padded = ({ body, bodyLine }: ProseSource) => '\n'.repeat(bodyLine - 1) + body;

async function renderMarkdown(
  processor: Awaited<ReturnType<typeof createMarkdownProcessor>>,
  source: ProseSource,
  fileURL: URL,
): Promise<Rendered> {
  const frontmatter: { proseNotes?: ProseNotes } = {};
  const { code, metadata } = await processor.render(padded(source), { fileURL, frontmatter });
  return {
    html: code,
    headings: metadata.headings,
    imagePaths: [...metadata.localImagePaths, ...metadata.remoteImagePaths],
    notes: frontmatter.proseNotes ?? noNotes(),
  };
}

async function compileMdx(
  source: ProseSource,
  context: LinkContext,
): Promise<{ prose: Prose; problems: Problem[] }> {
  const file = new VFile({ value: padded(source), path: source.path });
  try {
    await compile(file, {
      remarkPlugins: [remarkGfm, ...(remarkSteps(context) as [])],
      rehypePlugins: rehypeSteps() as [],
    });
  } catch (error) {
    return {
      prose: emptyProse(source, 'mdx'),
      problems: [problemAt(placeOf(source, error), mdxFault(error))],
    };
  }
  const data = file.data as { astro?: { frontmatter?: { proseNotes?: ProseNotes } } };
  const notes = data.astro?.frontmatter?.proseNotes ?? noNotes();
  return finish(source, 'mdx', { html: null, headings: [], imagePaths: [], notes });
}

function finish(
  source: ProseSource,
  format: Prose['format'],
  rendered: Rendered,
): { prose: Prose; problems: Problem[] } {
  const { notes, html, headings, imagePaths } = rendered;
  const { file, body, bodyLine } = source;
  const mentions = notes.mentions.map(({ line, column, ...mention }) => ({
    ...mention,
    place: { file, line, column },
  }));
  const problems = notes.faults.map(({ fault, line, column }) => problemAt({ file, line, column }, fault));
  return {
    prose: { format, body, bodyLine, html, headings: headings as Heading[], imagePaths, mentions },
    problems,
  };
}

const noNotes = (): ProseNotes => ({ faults: [], mentions: [] });

function emptyProse({ body, bodyLine }: ProseSource, format: Prose['format']): Prose {
  return {
    format,
    body,
    bodyLine,
    html: format === 'md' ? '' : null,
    headings: [],
    imagePaths: [],
    mentions: [],
  };
}

function placeOf({ file, bodyLine }: ProseSource, error: unknown) {
  const { line, column } = error as { line?: number; column?: number };
  return { file, line: line ?? bodyLine, column: column ?? 1 };
}

function mdxFault(error: unknown) {
  const reason = (error as { reason?: string }).reason ?? String(error);
  return messages.mdxSyntax(reason);
}
