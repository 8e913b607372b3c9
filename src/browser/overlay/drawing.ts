import type { LineStyle } from '../../charts/theme.ts';
import type { Mark, Scene } from '../../overlay/index.ts';
import { svg } from './elements.ts';

/** A picture, and the group that a cursor is drawn into; `clip` is an id that nothing else of the page has. */
export function drawingOf(
  scene: Scene,
  title: string,
  clip = 'overlay-plot',
): { picture: SVGElement; cursor: SVGElement } {
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

/** A short piece of a line, or one of the points that nothing joins. */
export function sampleOf({ stroke, dash, weight }: LineStyle, isPoint = false): SVGElement {
  const ends = { x1: 0, x2: 28, y1: 5, y2: 5 };
  const line = { ...ends, stroke, 'stroke-width': weight, 'stroke-dasharray': dash.join(' ') };
  const sample = isPoint ? svg('circle', { cx: 14, cy: 5, r: 2.5, fill: stroke }) : svg('line', line);
  return svg('svg', { width: 28, height: 10, 'aria-hidden': 'true' }, sample);
}

/** An element of a drawing. */
export const drawn = ({ tag, attributes, text }: Mark): SVGElement =>
  svg(tag, attributes, ...(text === undefined ? [] : [text]));
