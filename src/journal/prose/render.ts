import { pathToFileURL } from 'node:url';
import { createMarkdownProcessor, rehypeHeadingIds } from '@astrojs/markdown-remark';
import { compile } from '@mdx-js/mdx';
import remarkGfm from 'remark-gfm';
import { byPlace, type Fault, type Problem, problemAt } from '../../problem/index.ts';
import { messages } from '../messages.ts';
import type { Heading, Prose } from '../types.ts';
import { everyLanguage } from './code-colours.ts';
import type { LinkContext } from './links.ts';
import { rehypeSteps, remarkSteps } from './pipeline.ts';
import { noNotes, notesOf, type ProseNotes } from './report.ts';
import { textFault } from './text-limits.ts';

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

/** A text rendered, with the pictures of the journal that it shows. */
export interface RenderedProse {
  prose: Prose;
  problems: Problem[];
  pictures: ProseNotes['pictures'];
}

/** Renders the bodies of one journal's records; every step's faults come back as problems. */
export async function proseRenderer(context: LinkContext) {
  const markdown = await createMarkdownProcessor({
    syntaxHighlight: 'prism',
    remarkPlugins: remarkSteps(context),
    rehypePlugins: rehypeSteps(),
  });
  await markdown.render(everyLanguage, {
    fileURL: pathToFileURL(`${context.root}/index.md`),
    frontmatter: {},
  });
  return async (source: ProseSource): Promise<RenderedProse> => {
    const format = source.file.endsWith('.mdx') ? 'mdx' : 'md';
    const limited = textFault(source.body);
    if (limited) {
      const place = { file: source.file, line: source.bodyLine + limited.line, column: limited.column };
      return unread(source, format, problemAt(place, limited.fault));
    }
    try {
      const render = format === 'mdx' ? compileMdx(source, context) : renderMarkdown(markdown, source);
      return finish(source, format, await render);
    } catch (error) {
      const fault = renderFault(format, error);
      if (!fault) throw error;
      return unread(source, format, problemAt(placeOf(source, error), fault));
    }
  };
}

function unread(source: ProseSource, format: Prose['format'], problem: Problem) {
  const prose = proseOf(source, format, { ...empty(format), notes: noNotes() });
  return { prose, problems: [problem], pictures: [] };
}

/** Problems of the pictures that a text shows; `faultOf` looks at a picture by its path in the journal. */
export async function pictureProblems(
  file: string,
  pictures: ProseNotes['pictures'],
  faultOf: (picture: string, written: string) => Promise<Fault | null>,
): Promise<Problem[]> {
  const checked = pictures.map(async ({ written, file: picture, line, column }) => {
    const fault = await faultOf(picture, written);
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

function finish(source: ProseSource, format: Prose['format'], rendered: Rendered): RenderedProse {
  const { file } = source;
  const { faults, pictures } = rendered.notes;
  const problems = faults.map(({ fault, line, column }) => problemAt({ file, line, column }, fault));
  return { prose: proseOf(source, format, rendered), problems, pictures };
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
