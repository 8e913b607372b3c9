import type { APIRoute } from 'astro';
import { currentJournal } from '../../journal/current.ts';
import { overlayEntries } from '../../site/overlay.ts';

/** What the overlay page can show. */
export const GET: APIRoute = () => new Response(`${JSON.stringify(overlayEntries(currentJournal()))}\n`);
