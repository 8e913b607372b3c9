import {
  type Chart,
  type Draw,
  type DrawnChart,
  type RenderedChart,
  renderChart as render,
} from '../charts/index.ts';
import type { SiteResults } from './site-results.ts';

/** Who draws charts, and where results of the site's own code are kept. */
export interface Drawer {
  draw: Draw;
  /** Null where the code may change while it runs, as on a live site. */
  results: SiteResults | null;
}

/** Who draws for this process; on the global object for the reason that `journal/current.ts` gives. */
const key = Symbol.for('quiescent.draw');

const holder = globalThis as { [key]?: Drawer | undefined };

/** Names who draws the charts of the site from now on; null lets each be drawn where it is asked for. */
export function drawChartsBy(drawer: Drawer | null): void {
  holder[key] = drawer ?? undefined;
}

/** What is kept for this process; null where nothing is. */
export const siteResults = (): SiteResults | null => holder[key]?.results ?? null;

/** Who draws for this process; undefined where each chart is drawn where it is asked for. */
export const drawHeld = (): Draw | undefined => holder[key]?.draw;

/** A chart as SVG for its place on a page, drawn by whoever draws for this process. */
export const renderChart = (chart: Chart | DrawnChart, place = ''): Promise<RenderedChart> =>
  render(chart, place, drawHeld());
