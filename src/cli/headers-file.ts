import { readdir, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { headersText } from '../site/headers.ts';

/** Writes `_headers` into a finished site; what the journal's own file of that name says follows. */
export async function writeHeadersFile(site: string, base: string): Promise<void> {
  const entries = await readdir(site, { withFileTypes: true });
  const names = entries
    .filter((entry) => entry.isDirectory() || entry.name.endsWith('.html'))
    .map(({ name }) => name)
    .filter((name) => name !== 'index.html');
  const file = path.join(site, '_headers');
  const own = await readFile(file, 'utf8').catch(() => null);
  const made = headersText({ base, names });
  await writeFile(file, own === null ? made : `${made}\n${own}`);
}
