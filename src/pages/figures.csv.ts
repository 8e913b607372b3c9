import type { APIRoute } from 'astro';
import { currentJournal } from '../journal/current.ts';
import { figuresCsv } from '../site/figures-csv.ts';

/** Every figure of the journal as a table. */
export const GET: APIRoute = () => new Response(figuresCsv(currentJournal().logs));
