import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { APIRoute, GetStaticPaths } from 'astro';
import { currentJournal } from '../journal/current.ts';
import { downloadOf } from '../journal/ids.ts';

/** Every capture file, published untouched beside its log's page. */
export const getStaticPaths = (() => {
  const files = currentJournal().logs.flatMap(({ captures }) => captures.map(({ file }) => file));
  return [...new Set(files)].map((file) => ({
    params: { file: downloadOf(file).replace(/\.csv$/, '') },
    props: { file },
  }));
}) satisfies GetStaticPaths;

export const GET: APIRoute = async ({ props }) =>
  new Response(new Uint8Array(await readFile(path.join(currentJournal().folder, String(props['file'])))));
