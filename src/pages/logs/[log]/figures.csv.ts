import type { APIRoute } from 'astro';
import type { Log } from '../../../journal/types.ts';
import { figuresCsv } from '../../../site/figures-csv.ts';
import { logsWithData } from '../../../site/log-paths.ts';

/** The figures of each log that has captures, as a table. */
export const getStaticPaths = logsWithData;

export const GET: APIRoute<{ log: Log }> = ({ props: { log } }) => new Response(figuresCsv([log]));
