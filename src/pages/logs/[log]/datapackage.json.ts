import type { APIRoute } from 'astro';
import { currentJournal } from '../../../journal/current.ts';
import type { Log } from '../../../journal/types.ts';
import { logPackage } from '../../../site/data-package.ts';
import { logsWithData } from '../../../site/log-paths.ts';

/** The data of each log that has captures. */
export const getStaticPaths = logsWithData;

export const GET: APIRoute<{ log: Log }> = ({ props: { log } }) =>
  new Response(`${JSON.stringify(logPackage(log, currentJournal()), null, 2)}\n`);
