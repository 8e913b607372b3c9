import { type Chart, type Draw, type RenderedChart, renderChart as render } from '../charts/index.ts';

/** Who draws for this process; on the global object for the reason that `journal/current.ts` gives. */
const key = Symbol.for('quiescent.draw');

const holder = globalThis as { [key]?: Draw | undefined };

/** Names who draws the charts of the site from now on; null lets each be drawn where it is asked for. */
export function drawChartsBy(draw: Draw | null): void {
  holder[key] = draw ?? undefined;
}

/** A chart as SVG for its place on a page, drawn by whoever draws for this process. */
export const renderChart = (chart: Chart, place = ''): Promise<RenderedChart> =>
  render(chart, place, holder[key]);
