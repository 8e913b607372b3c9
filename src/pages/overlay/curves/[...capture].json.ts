import type { APIRoute, GetStaticPaths } from 'astro';
import { currentJournal } from '../../../journal/current.ts';
import { capturesWithCurves, curvesOf, curvesPath } from '../../../site/overlay.ts';

/** The curves of each capture, read by the overlay page when they are chosen. */
export const getStaticPaths = (async () => {
  const captures = await capturesWithCurves(currentJournal());
  return captures.map((capture) => ({ params: { capture: curvesPath(capture) }, props: { capture } }));
}) satisfies GetStaticPaths;

export const GET: APIRoute = ({ props }) => new Response(`${JSON.stringify(curvesOf(props['capture']))}\n`);
