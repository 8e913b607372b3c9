import type { AbsentChart, ChartResult, ChartSize, DrawnChart } from '../charts/index.ts';

/** A chart in the two designs that a page carries, with the line that stands under it. */
export interface SizedChart<Side = ChartResult> {
  wide: Side;
  narrow: Side;
  caption: string;
}

/** A chart as a page shows it: before it is drawn, or drawn. */
export type ShownChart = SizedChart<ChartResult | DrawnChart>;

/** A chart that is drawn in both designs. */
export type DrawnSized = SizedChart<DrawnChart | AbsentChart>;

/** Designs a chart for both widths. */
export function sized<Data>(
  design: (data: Data, size: ChartSize) => ChartResult,
  data: Data,
  caption: string,
): SizedChart {
  return { wide: design(data, 'wide'), narrow: design(data, 'narrow'), caption };
}
