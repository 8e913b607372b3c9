import { wrapLabels } from './end-labels.ts';
import { textWidth } from './text-width.ts';
import { fontSize, numberPadding } from './theme.ts';
import type { ChartSize } from './types.ts';

/** The room of a chart in pixels: the plot itself and the margins that hold its text. */
export interface Frame {
  /** Of the plot. */
  width: number;
  left: number;
  right: number;
  top: number;
  bottom: number;
  /** Widest line of a label in the right margin. */
  labelMost: number;
  /** Rows of text between the plot and the title of its vertical axis. */
  rows: number;
}

/** Height of a row of text above the plot. */
export const rowHeight = 18;

/** Distance from the plot to the labels in the right margin. */
export const labelGap = 12;

const designs = {
  wide: { total: 720, left: 54, right: 18, labelMost: 150 },
  narrow: { total: 360, left: 50, right: 18, labelMost: 84 },
} as const;

/**
 * Sets the margins; the right one holds the labels at the ends of the lines, wrapped at `most` where they are
 * long, and the upper one the title of the axis and `rows` more rows of text.
 */
export function frameFor(
  size: ChartSize,
  endLabels: readonly string[],
  { most = 150, rows = 0 } = {},
): Frame {
  const { total, left, right: least } = designs[size];
  const labelMost = Math.min(most, designs[size].labelMost);
  const { width } = wrapLabels(endLabels, labelMost);
  const right = Math.max(least, width === 0 ? 0 : width + labelGap + 2);
  return {
    width: total - left - right,
    left,
    right,
    bottom: 48,
    labelMost,
    ...upperRows(rows),
  };
}

const upperRows = (rows: number) => ({ top: 32 + rows * rowHeight, rows });

/** The same frame with another count of rows of text above the plot. */
export const withRows = (frame: Frame, rows: number): Frame => ({ ...frame, ...upperRows(rows) });

/** A plot laid out in a frame whose left margin holds the numbers of its vertical axes, which are as wide as they are. */
export function fitted<Plot>(
  frame: Frame,
  layOut: (frame: Frame) => Plot,
  numbersOf: (plot: Plot) => readonly string[],
): { frame: Frame; plot: Plot } {
  const plot = layOut(frame);
  const roomy = withNumbers(frame, numbersOf(plot));
  return roomy === frame ? { frame, plot } : { frame: roomy, plot: layOut(roomy) };
}

function withNumbers(frame: Frame, numbers: readonly string[]): Frame {
  const widest = Math.max(0, ...numbers.map((number) => textWidth(number, fontSize)));
  const more = Math.ceil(widest) + numberPadding + 2 - frame.left;
  return more > 0 ? { ...frame, left: frame.left + more, width: frame.width - more } : frame;
}
