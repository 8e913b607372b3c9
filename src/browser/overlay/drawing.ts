import type { Mark, Scene } from '../../overlay/index.ts';
import { svg } from './elements.ts';

const clip = 'overlay-plot';

/** The picture of an overlay, and the group that a cursor is drawn into. */
export function drawingOf(scene: Scene, title: string): { picture: SVGElement; cursor: SVGElement } {
  const { width, height, left, top, plotWidth, plotHeight } = scene;
  const room = { x: 0, y: -1, width: plotWidth, height: plotHeight + 2 };
  const cursor = svg('g', {});
  const plot = svg('g', { 'clip-path': `url(#${clip})` }, ...scene.plot.map(drawn));
  const moved = svg(
    'g',
    { transform: `translate(${left} ${top})` },
    ...scene.around.map(drawn),
    plot,
    cursor,
  );
  const picture = svg(
    'svg',
    { viewBox: `0 0 ${width} ${height}`, width, height, role: 'img', 'aria-label': title },
    svg('clipPath', { id: clip }, svg('rect', room)),
    moved,
  );
  return { picture, cursor };
}

/** An element of a drawing. */
export const drawn = ({ tag, attributes, text }: Mark): SVGElement =>
  svg(tag, attributes, ...(text === undefined ? [] : [text]));
