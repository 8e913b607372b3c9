import { drawnChart } from '../charts/index.ts';
import type { CaptureRecord, ChartKind } from '../journal/index.ts';
import { captureChart } from './capture-charts.ts';
import { chartedDigest } from './charted-capture.ts';
import { drawHeld, siteResults } from './drawing.ts';
import type { SiteResults } from './site-results.ts';
import type { DrawnSized, ShownChart, SizedChart } from './sized-chart.ts';

/** Which chart of a capture; of one with several channels, of which. */
interface Wanted {
  capture: CaptureRecord;
  kind: ChartKind;
  channel: string | null;
}

/** Charts that are being drawn, as several pages may ask for one at a time. */
const underWay = new Map<string, Promise<ShownChart | null>>();

/** A chart of a capture, drawn where drawings are kept: made anew only where something that it shows is another. */
export async function shownChart(wanted: Wanted): Promise<ShownChart | null> {
  const results = siteResults();
  if (!results) return designed(wanted);
  const name = partsOf(wanted).join();
  const begun = underWay.get(name) ?? keptChart(wanted) ?? made(wanted, results);
  if (!(begun instanceof Promise)) return begun;
  underWay.set(name, begun);
  return begun.finally(() => underWay.delete(name));
}

async function made(wanted: Wanted, results: SiteResults): Promise<ShownChart | null> {
  const chart = designed(wanted);
  if (!chart) return null;
  const drawn = await drawnSized(chart);
  await results.put('chart', partsOf(wanted), drawn);
  return drawn;
}

/** A chart of a capture as it was kept, or else before it is drawn. */
export const chartAtHand = (wanted: Wanted): ShownChart | null => keptChart(wanted) ?? designed(wanted);

const designed = ({ capture, kind, channel }: Wanted) => captureChart(capture, kind, channel);

const keptChart = (wanted: Wanted): DrawnSized | null =>
  (siteResults()?.get('chart', partsOf(wanted)) as DrawnSized | null | undefined) ?? null;

const partsOf = ({ capture, kind, channel }: Wanted): string[] => [
  chartedDigest(capture),
  JSON.stringify([kind, channel]),
];

async function drawnSized({ wide, narrow, caption }: SizedChart): Promise<DrawnSized> {
  const sides = [wide, narrow].map((side) => ('absent' in side ? side : drawnChart(side, drawHeld())));
  const [drawnWide = wide, drawnNarrow = narrow] = await Promise.all(sides);
  return { wide: drawnWide, narrow: drawnNarrow, caption } as DrawnSized;
}
