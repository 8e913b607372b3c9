import type { APIRoute, GetStaticPaths } from 'astro';
import { currentJournal } from '../journal/current.ts';
import { coloursCss } from '../site/colours.ts';

/** The style sheet of a journal that has a colour of its own. */
export const getStaticPaths = (() =>
  coloursCss(currentJournal().settings) === null
    ? []
    : [{ params: { colours: 'colours' } }]) satisfies GetStaticPaths;

export const GET: APIRoute = () =>
  new Response(coloursCss(currentJournal().settings), { headers: { 'content-type': 'text/css' } });
