import { mkdir, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { close, createIndex, type PagefindIndex } from 'pagefind';
import type { Journal } from '../journal/index.ts';
import { type PageEntry, pageEntries, type TextEntry, textEntries } from '../site/search-entries.ts';

/** Folder of the index in the site, where the search page looks for it. */
const indexFolder = 'search/index';

/** What stands on many pages alike, drawings, and columns of numbers. */
const leftOut = [
  ...['svg', 'math', 'nav', '.voltage-sign', '.safety-notice', '.invented', '.danger'],
  ...['.chart details', 'td.number', '.digest', 'a.address'],
];

/** The files of an index that a search reads; the rest are interfaces and other languages. */
const needed = /^(pagefind\.js|pagefind-entry\.json|wasm\.en\.pagefind|.*\.pf_(meta|index|fragment|filter))$/;

/** A picture, whose address the index would keep although it depends on the site's base path. */
const picture = /<img\b(?:[^>"]|"[^"]*")*>/g;

/** Makes the index of a written site and puts it in; the same site gives the same files. */
export async function writeSearchIndex(site: string, journal: Journal): Promise<void> {
  try {
    const made = await createIndex({ forceLanguage: 'en', excludeSelectors: leftOut });
    const index = answered(made).index;
    if (!index) throw new Error('The search index cannot be begun.');
    for (const entry of pageEntries(journal)) await addPage(index, site, entry);
    for (const entry of textEntries(journal)) await add(index, entry.address, entry, textPage(entry));
    await save(answered(await index.getFiles()).files, path.join(site, indexFolder));
  } finally {
    await close();
  }
}

async function addPage(index: PagefindIndex, site: string, entry: PageEntry): Promise<void> {
  const html = await readFile(path.join(site, entry.page, 'index.html'), 'utf8');
  await add(index, `/${entry.page}/`, entry, html);
}

/** Adds a page with its kind and context, which its `<main>` is given to carry; remarks are set off from values. */
async function add(
  index: PagefindIndex,
  url: string,
  { kind, context }: PageEntry | TextEntry,
  html: string,
): Promise<void> {
  const facts = `data-kind="${kind}" data-context="${escaped(context)}"`;
  const read =
    'data-pagefind-filter="kind[data-kind]" data-pagefind-meta="kind[data-kind], context[data-context]"';
  const content = html
    .replace('<main ', () => `<main data-pagefind-body ${facts} ${read} `)
    .replaceAll('<span class="remark"', ' $&')
    .replaceAll(picture, '');
  answered(await index.addHTMLFile({ url, content }));
}

const textPage = ({ title, paragraphs }: TextEntry) =>
  `<html lang="en"><body><main id="content"><h1>${escaped(title)}</h1>${paragraphs
    .map((paragraph) => `<p>${escaped(paragraph)}</p>`)
    .join('')}</main></body></html>`;

const escaped = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');

/** An answer of the indexer; what it complains of becomes the failure of the build. */
function answered<Answer extends { errors: string[] }>(answer: Answer): Answer {
  const [error] = answer.errors;
  if (error !== undefined) throw new Error(`The search index cannot be made: ${error}`);
  return answer;
}

async function save(files: readonly { path: string; content: Uint8Array }[], folder: string): Promise<void> {
  for (const file of files.filter(({ path: name }) => needed.test(name))) {
    const target = path.join(folder, file.path);
    await mkdir(path.dirname(target), { recursive: true });
    await writeFile(target, file.content);
  }
}
