import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { APIRoute, GetStaticPaths } from 'astro';
import { currentJournal } from '../journal/current.ts';
import { downloadOf } from '../journal/ids.ts';

/** Every capture file and every list of parts, published untouched beside the page of its record. */
export const getStaticPaths = (() => {
  const { logs, versions } = currentJournal();
  const files = [
    ...logs.flatMap(({ captures }) => captures.map(({ file }) => file)),
    ...versions.flatMap(({ bill }) => bill.file ?? []),
  ];
  return [...new Set(files)].map((file) => ({
    params: { file: downloadOf(file).replace(/\.csv$/, '') },
    props: { file },
  }));
}) satisfies GetStaticPaths;

export const GET: APIRoute = async ({ props }) =>
  new Response(new Uint8Array(await readFile(path.join(currentJournal().folder, String(props['file'])))));
