import { placeholder } from './svg/ids.ts';
import type { Chart, Drawable, Drawing, RenderedChart } from './types.ts';

/** Draws charts: at once, in another thread, or from what was kept. */
export type Draw = (chart: Drawable) => Promise<Drawing>;

/**
 * A chart as one SVG for light, dark and print. The same chart and place give the same bytes, whatever was drawn
 * before and whoever draws. `place` tells two placements of one chart on a page apart: usually the ordinal on the page.
 */
export async function renderChart(
  { spec, text, table }: Chart,
  place = '',
  draw: Draw = drawHere,
): Promise<RenderedChart> {
  const { markup, key, ...drawn } = await draw({ spec, text });
  const suffix = place === '' ? '' : `-${place.replace(/[^\w-]/g, '-')}`;
  return { ...text, ...drawn, table, svg: markup.replaceAll(placeholder, `${key}${suffix}`) };
}

/** The drawing libraries are large, and not loaded where somebody else draws. */
const drawHere: Draw = async (chart) => (await import('./draw.ts')).drawChart(chart);
