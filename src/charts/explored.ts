import type { Axis } from './axis.ts';
import type { DrawnLine } from './curves.ts';
import { sortRatios } from './distortion.ts';
import type { Run } from './readings.ts';
import type { Readings } from './types.ts';

/** A line of a chart in the unit of its panel; readings that nothing joins are runs of one. */
export interface ExploredLine extends DrawnLine {
  /** Lower and upper edge of the 95 % interval of the readings that have one. */
  edges?: { low: readonly Run[]; high: readonly Run[] };
}

/** What an axis is of; a unit of one is ''. */
export interface ExploredAxis {
  quantity: string;
  unit: string;
  kind: Axis['kind'];
}

/** A vertical axis and the lines on it. */
export interface ExploredPanel extends ExploredAxis {
  lines: readonly ExploredLine[];
  /** What lies below is not worth an axis that reaches it. */
  from?: number;
}

/** What a chart draws, for a reader who explores it: panels one below another over one horizontal axis. */
export interface ExploredChart {
  x: ExploredAxis;
  panels: readonly ExploredPanel[];
  /** Places that have a name, ascending. */
  marks?: readonly { name: string; at: number }[];
}

export const frequencyAxis: ExploredAxis = { quantity: 'Frequency', unit: 'Hz', kind: 'log' };
export const powerAxis: ExploredAxis = { quantity: 'Output power', unit: 'W', kind: 'log' };
export const loadAxis: ExploredAxis = { quantity: 'Load', unit: 'Ω', kind: 'log' };

/** A chart of one panel. */
export const onePanel = (
  x: ExploredAxis,
  y: ExploredAxis,
  lines: readonly ExploredLine[],
): { explored: ExploredChart } => ({ explored: { x, panels: [{ ...y, lines: lines.map(justLine) }] } });

/** A line without what else its chart keeps with it. */
export const justLine = ({ name, runs, style, edges }: ExploredLine): ExploredLine => ({
  ...{ name, runs, style },
  ...(edges ? { edges } : {}),
});

/** Lines in per cent with the intervals of their series, which have the same order. */
export function withEdges<Series extends { low?: Readings; high?: Readings }>(
  lines: readonly DrawnLine[],
  series: readonly Series[],
  placesOf: (series: Series) => Readings,
): ExploredLine[] {
  return lines.map((line, i) => {
    const own = series[i];
    if (!own?.low || !own.high) return line;
    const edge = (ratio: Readings) => sortRatios(placesOf(own), ratio).runs;
    return { ...line, edges: { low: edge(own.low), high: edge(own.high) } };
  });
}

/** Runs of one reading each. */
export const asPoints = (runs: readonly Run[]): Run[] =>
  runs.flatMap(({ x, y }) => x.map((place, i) => ({ x: [place], y: y.slice(i, i + 1) })));
