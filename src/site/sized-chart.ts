import type { ChartResult, ChartSize } from '../charts/index.ts';

/** A chart in the two designs that a page carries, with the line that stands under it. */
export interface SizedChart {
  wide: ChartResult;
  narrow: ChartResult;
  caption: string;
}

/** Designs a chart for both widths. */
export function sized<Data>(
  design: (data: Data, size: ChartSize) => ChartResult,
  data: Data,
  caption: string,
): SizedChart {
  return { wide: design(data, 'wide'), narrow: design(data, 'narrow'), caption };
}
