import { globSync, mkdirSync, realpathSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/**
 * Writes an Astro project that does with a journal what Astro does by itself: its Markdown, with the pictures in it,
 * through the unified processor, and as many pages of as many bytes as the site that was built from it. What the
 * Markdown does not fill of a page is filled with the text of the built page as it stands, which Astro only copies.
 */
export function writeBareProject(root: string, journal: string, site: string): void {
  mkdirSync(join(root, 'src/pages'), { recursive: true });
  const pages = globSync('**/*.html', { cwd: site })
    .sort()
    .map((file) => ({ path: file.replace(/(^|\/)index\.html$|\.html$/, ''), file: join(site, file) }));
  writeFileSync(join(root, 'src/pages.json'), JSON.stringify(pages));
  writeFileSync(join(root, 'src/content.config.ts'), contentConfig(journal));
  writeFileSync(join(root, 'src/pages/[...page].astro'), page);
  const astro = dirname(createRequire(import.meta.url).resolve('astro/package.json'));
  symlinkSync(realpathSync(join(astro, '..')), join(root, 'node_modules'), 'junction');
}

const contentConfig = (journal: string) => `import { glob } from 'astro/loaders';
import { defineCollection } from 'astro:content';
const pattern = '{amplifiers,comparisons,decisions,logs,parts}/**/*.md';
export const collections = { records: defineCollection({ loader: glob({ pattern, base: ${JSON.stringify(journal)} }) }) };
`;

const page = `---
import { readFileSync } from 'node:fs';
import { getCollection, render } from 'astro:content';
import pages from '../pages.json';
export async function getStaticPaths() {
  const records = new Map((await getCollection('records')).map((one) => [one.id, one]));
  return pages.map(({ path, file }) => ({
    params: { page: path || undefined },
    props: { file, record: records.get(path) },
  }));
}
const { file, record } = Astro.props;
const Content = record ? (await render(record)).Content : null;
const rest = readFileSync(file, 'utf8').slice(record?.rendered?.html.length ?? 0);
---
{Content && <Content />}<Fragment set:html={rest} />
`;
