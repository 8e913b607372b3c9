import type { APIRoute, GetStaticPaths } from 'astro';
import { currentJournal } from '../../journal/current.ts';
import { exploredPages } from '../../site/explored-pages.ts';

/** The curves of a page's charts, read when one of them is explored. */
export const getStaticPaths = (() =>
  exploredPages(currentJournal()).map(({ page, charts }) => ({
    params: { page },
    props: { charts },
  }))) satisfies GetStaticPaths;

export const GET: APIRoute = ({ props }) => new Response(`${JSON.stringify(props['charts'])}\n`);
