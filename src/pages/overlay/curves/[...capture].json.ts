import type { APIRoute, GetStaticPaths } from 'astro';
import { currentJournal } from '../../../journal/current.ts';
import { curvesPath, overlayCaptures } from '../../../site/overlay.ts';

/** The curves of each capture, read by the overlay page when they are chosen. */
export const getStaticPaths = (() =>
  overlayCaptures(currentJournal()).map(({ capture, curves }) => ({
    params: { capture: curvesPath(capture) },
    props: { curves },
  }))) satisfies GetStaticPaths;

export const GET: APIRoute = ({ props }) => new Response(`${JSON.stringify(props['curves'])}\n`);
