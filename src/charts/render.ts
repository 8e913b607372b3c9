import { placeholder } from './svg/ids.ts';
import type { Chart, Drawable, Drawing, DrawnChart, RenderedChart } from './types.ts';

/** Draws charts: at once, in another thread, or from what was kept. */
export type Draw = (chart: Drawable) => Promise<Drawing>;

/**
 * A chart as one SVG for light, dark and print. The same chart and place give the same bytes, whatever was drawn
 * before and whoever draws. `place` tells two placements of one chart on a page apart: usually the ordinal on the page.
 */
export async function renderChart(
  chart: Chart | DrawnChart,
  place = '',
  draw: Draw = drawHere,
): Promise<RenderedChart> {
  const { text, table, drawing } = await drawnChart(chart, draw);
  const { markup, key, ...drawn } = drawing;
  const suffix = place === '' ? '' : `-${place.replace(/[^\w-]/g, '-')}`;
  return { ...text, ...drawn, table, svg: markup.replaceAll(placeholder, `${key}${suffix}`) };
}

/** A chart with its drawing in the place of its spec. */
export async function drawnChart(chart: Chart | DrawnChart, draw: Draw = drawHere): Promise<DrawnChart> {
  if ('drawing' in chart) return chart;
  const { spec, text, table } = chart;
  return { text, table, drawing: await draw({ spec, text }) };
}

/** The drawing libraries are large, and not loaded where somebody else draws. */
const drawHere: Draw = async (chart) => (await import('./draw.ts')).drawChart(chart);
