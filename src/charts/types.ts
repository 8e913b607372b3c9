/** A table beside a chart: the numbers it draws, already printed. */
export interface ChartTable {
  columns: { title: string; unit?: string; numeric: boolean }[];
  rows: string[][];
  /** Says when the table is thinned and where the whole data is. */
  note?: string;
}

/** What a chart needs besides its spec. */
export interface ChartText {
  /** Says what the chart shows, as an answer where there is one. */
  title: string;
  /** One or two sentences for somebody who cannot see it. */
  description: string;
}

/** A chart ready for a page: one inlined SVG for light, dark and print. */
export interface RenderedChart extends ChartText {
  /** SVG markup with role="img", title and desc; ids are prefixed so that several can share a page. */
  svg: string;
  table: ChartTable;
  /** Width and height in CSS pixels. */
  width: number;
  height: number;
}
