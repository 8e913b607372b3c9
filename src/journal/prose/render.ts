import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { createMarkdownProcessor, rehypeHeadingIds } from '@astrojs/markdown-remark';
import { compile } from '@mdx-js/mdx';
import remarkGfm from 'remark-gfm';
import { byPlace, type Fault, type Problem, problemAt } from '../../problem/index.ts';
import { messages } from '../messages.ts';
import { pictureFault } from '../picture-files.ts';
import type { Heading, Prose } from '../types.ts';
import type { LinkContext } from './links.ts';
import { rehypeSteps, remarkSteps } from './pipeline.ts';
import { noNotes, notesOf, type ProseNotes } from './report.ts';

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
    const format = source.file.endsWith('.mdx') ? 'mdx' : 'md';
    try {
      const render = format === 'mdx' ? compileMdx(source, context) : renderMarkdown(markdown, source);
      return await finish(source, format, await render, context);
    } catch (error) {
      const fault = renderFault(format, error);
      if (!fault) throw error;
      const prose = proseOf(source, format, { ...empty(format), notes: noNotes() });
      return { prose, problems: [problemAt(placeOf(source, error), fault)] };
    }
  };
}

/** Problems of the pictures that the prose shows. */
async function pictureProblems(
  { file }: ProseSource,
  { notes }: Rendered,
  { root }: LinkContext,
): Promise<Problem[]> {
  const checked = notes.pictures.map(async ({ written, file: picture, line, column }) => {
    const fault = await pictureFault(path.join(root, picture), written);
    return fault ? [problemAt({ file, line, column }, fault)] : [];
  });
  return (await Promise.all(checked)).flat();
}

/** Blank lines stand in for the frontmatter, so that positions in the body are positions in the file. */
const padded = ({ body, bodyLine }: ProseSource) => '\n'.repeat(bodyLine - 1) + body;

async function renderMarkdown(
  processor: Awaited<ReturnType<typeof createMarkdownProcessor>>,
  source: ProseSource,
): Promise<Rendered> {
  const frontmatter: { proseNotes?: ProseNotes } = {};
  const options = { fileURL: pathToFileURL(source.path), frontmatter };
  const { code, metadata } = await processor.render(padded(source), options);
  return {
    html: code,
    headings: metadata.headings,
    imagePaths: [...metadata.localImagePaths, ...metadata.remoteImagePaths],
    notes: frontmatter.proseNotes ?? noNotes(),
  };
}

async function compileMdx(source: ProseSource, context: LinkContext): Promise<Rendered> {
  const file = await compile(
    { value: padded(source), path: source.path },
    {
      remarkPlugins: [remarkGfm, ...(remarkSteps(context) as [])],
      rehypePlugins: [...(rehypeSteps() as []), rehypeHeadingIds],
    },
  );
  const { astro } = file.data as { astro?: { headings?: Heading[] } };
  return { ...empty('mdx'), headings: astro?.headings ?? [], notes: notesOf(file) };
}

/** Nothing rendered; MDX has its HTML made while the site is built. */
const empty = (format: Prose['format']) => ({
  html: format === 'md' ? '' : null,
  headings: [],
  imagePaths: [],
});

async function finish(
  source: ProseSource,
  format: Prose['format'],
  rendered: Rendered,
  context: LinkContext,
): Promise<{ prose: Prose; problems: Problem[] }> {
  const { file } = source;
  const faults = rendered.notes.faults.map(({ fault, line, column }) =>
    problemAt({ file, line, column }, fault),
  );
  const pictures = await pictureProblems(source, rendered, context);
  return { prose: proseOf(source, format, rendered), problems: [...faults, ...pictures] };
}

function proseOf(
  { file, body, bodyLine }: ProseSource,
  format: Prose['format'],
  { notes, html, headings, imagePaths }: Rendered,
): Prose {
  const placed = <T>(noted: readonly (T & { line: number; column: number })[]) =>
    noted
      .map(({ line, column, ...rest }) => ({ ...rest, place: { file, line, column } }))
      .sort((a, b) => byPlace(a.place, b.place));
  return {
    ...{ format, body, bodyLine, html, headings: headings as Heading[], imagePaths },
    headingPlaces: notes.headings.map((place) => ({ file, ...place })),
    ...{
      mentions: placed(notes.mentions),
      figures: placed(notes.figures),
      fragments: placed(notes.fragments),
    },
  };
}

/** A place that the compiler writes into its message, such as `(9:1-9:7)`. */
const placeInMessage = / \((\d+):(\d+)(?:-\d+:\d+)?\)/;

/** Where rendering failed: told by the error, written in its message, or else the start of the body. */
function placeOf({ file, bodyLine }: ProseSource, error: unknown) {
  const { line, column, message } = error as { line?: number; column?: number; message: string };
  const [, writtenLine = bodyLine, writtenColumn = 1] = placeInMessage.exec(message) ?? [];
  return { file, line: line ?? Number(writtenLine), column: column ?? Number(writtenColumn) };
}

/** What a person can mend; null for a failure of another kind. */
function renderFault(format: Prose['format'], error: unknown): Fault | null {
  if (error instanceof RangeError) return messages.tooDeep();
  if (format === 'md') return null;
  const { reason = String(error) } = error as { reason?: string };
  return messages.mdxSyntax(reason.replace(' with acorn', '').replace(placeInMessage, ''));
}
