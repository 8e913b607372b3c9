import type { Frame } from './frame.ts';
import { chartFont, colour, fontSize, numberPadding } from './theme.ts';
import type { ChartLayer, ChartSpec } from './types.ts';

/** Rows of a dataset. */
export type Row = Record<string, unknown>;

const config: NonNullable<ChartSpec['config']> = {
  aria: false,
  view: { stroke: null },
  axis: {
    ticks: false,
    labelFont: chartFont,
    labelFontSize: fontSize,
    labelColor: colour('soft'),
    labelPadding: numberPadding,
    labelFlush: false,
    labelOverlap: false,
    labelBound: false,
    titleFont: chartFont,
    titleFontSize: fontSize,
    titleFontWeight: 'normal',
    titleColor: colour('ink'),
    gridColor: colour('rule'),
    domainColor: colour('soft'),
  },
};

/** Puts layers and data together to a spec whose drawing measures exactly the frame's margins plus plot. */
export function assemble(
  frame: Frame,
  height: number,
  layers: readonly ChartLayer[],
  datasets: Record<string, Row[]>,
): ChartSpec {
  const { width, left, right, top, bottom } = frame;
  return {
    width,
    height,
    autosize: 'none',
    padding: { left, right, top, bottom },
    background: 'transparent',
    config,
    datasets,
    layer: [...layers],
  };
}
