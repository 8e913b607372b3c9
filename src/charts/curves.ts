import type { Row } from './assemble.ts';
import { type Axis, along, placesAlong } from './axis.ts';
import { decimate } from './decimate.ts';
import { type Anchor, lineHeight, type PlacedLabel, placeLabels } from './end-labels.ts';
import { type Frame, labelGap } from './frame.ts';
import { type Panel, pixelY } from './layers.ts';
import { extent, type Run } from './readings.ts';
import { colour, type LineStyle } from './theme.ts';

/** A named line with its style. */
export interface DrawnLine {
  name: string;
  runs: readonly Run[];
  style: LineStyle;
}

/** A logarithmic horizontal axis that just holds all readings. */
export function logAxis(lines: readonly Pick<DrawnLine, 'runs'>[], length: number): Axis {
  const [low, high] = extent(lines.flatMap(({ runs }) => runs.flatMap(({ x }) => x))) ?? [1, 10];
  return { kind: 'log', domain: low < high ? [low, high] : [low / 2, high * 2], length };
}

/** Rows of every run of two readings or more, thinned to columns of pixels: by default to what they can show. */
export function curveRows(lines: readonly DrawnLine[], panel: Panel, columnWidth = 1): Row[] {
  return lines.flatMap(({ name, runs, style }, i) =>
    runs
      .filter(({ x }) => x.length > 1)
      .flatMap((run, j) => runRows(run, panel, { style, id: `${name}.${i}.${j}`, columnWidth })),
  );
}

function runRows(
  { x, y }: Run,
  panel: Panel,
  line: { style: LineStyle; id: string; columnWidth: number },
): Row[] {
  const { stroke, dash, weight } = line.style;
  const pixel = placesAlong(panel.x);
  return decimate(y, (i) => Math.floor(pixel(x[i] ?? 0) / line.columnWidth)).map((i) => ({
    x: x[i],
    y: y[i],
    at: i,
    run: line.id,
    stroke,
    dash,
    weight,
  }));
}

/** Rows of the readings that stand alone between gaps. */
export function loneRows(lines: readonly DrawnLine[]): Row[] {
  return lines.flatMap(({ runs, style }) =>
    runs.filter(({ x }) => x.length === 1).map(({ x, y }) => ({ x: x[0], y: y[0], stroke: style.stroke })),
  );
}

/** Names at the right ends of the lines, moved apart, and thin strokes to those that had to move. */
export function endLabels(
  lines: readonly DrawnLine[],
  panel: Panel,
  frame: Frame,
): { labels: Row[]; leads: Row[] } {
  const anchors = lines.flatMap((line) => anchorOf(line, panel));
  const placed = placeLabels(anchors, frame.labelMost, panel.top + panel.y.length);
  return {
    labels: placed.map((label) => labelRow(label, frame.width + labelGap)),
    leads: placed.filter((label) => isAway(label, frame)).map((label) => leadRow(label, frame)),
  };
}

/** A row of a text layer for a placed label. */
function labelRow({ lines, labelY, colour: fill }: PlacedLabel, px: number): Row {
  return { px, py: labelY - ((lines.length - 1) * lineHeight) / 2, text: lines, fill };
}

function anchorOf({ name, runs, style }: DrawnLine, panel: Panel): Anchor[] {
  const last = rightmost(runs);
  if (last === null) return [];
  const floor = panel.top + panel.y.length;
  const y = Math.min(floor, Math.max(panel.top, pixelY(panel, last.y)));
  return [{ text: name, x: along(panel.x, last.x), y, colour: style.stroke }];
}

/** The last of the readings that lie furthest to the right; null without any. */
function rightmost(runs: readonly Run[]): { x: number; y: number } | null {
  let found: { x: number; y: number } | null = null;
  for (const { x, y } of runs) {
    for (let i = 0; i < x.length; i++) {
      const place = x[i] ?? 0;
      if (found === null || place >= found.x) found = { x: place, y: y[i] ?? 0 };
    }
  }
  return found;
}

function isAway({ x, y, labelY }: PlacedLabel, { width }: Frame): boolean {
  return Math.abs(labelY - y) > 9 || x < width - 8;
}

function leadRow({ x, y, labelY }: PlacedLabel, { width }: Frame): Row {
  return { px: x + 2, py: y, px2: width + labelGap - 3, py2: labelY, stroke: colour('soft'), dash: [1, 2] };
}
