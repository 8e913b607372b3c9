import type { APIRoute } from 'astro';
import { currentJournal } from '../journal/current.ts';
import { journalPackage } from '../site/data-package.ts';

/** The data of the whole journal. */
export const GET: APIRoute = () =>
  new Response(`${JSON.stringify(journalPackage(currentJournal()), null, 2)}\n`);
