import { decadeAspects, proportion } from './aspect.ts';
import type { Row } from './assemble.ts';
import { type DrawnLine, logAxis } from './curves.ts';
import { percent } from './format.ts';
import type { Frame } from './frame.ts';
import { type Panel, yChannel } from './layers.ts';
import { extent, joined, type Sorted, sortReadings } from './readings.ts';
import type { Print } from './table.ts';
import { logTicks, plainTick, printedNumbers, roundLogDomain, withNamed } from './ticks.ts';
import type { ChartSize, Readings } from './types.ts';

/** A line of distortion with its readings in per cent, sorted for logarithmic axes. */
export type DistortionLine = DrawnLine & { sorted: Sorted };

const onLogAxes = { x: 'log', y: 'log' } as const;

/** Sorts ratios over something for logarithmic axes, in per cent. */
export function sortRatios(x: Readings, ratio: Readings): Sorted {
  return sortReadings(x, inPercent(ratio), onLogAxes);
}

/** True when at least one line has two neighbouring readings. */
export function canBeDrawn(lines: readonly DrawnLine[]): boolean {
  return lines.some(({ runs }) => runs.some(({ x }) => x.length > 1));
}

/** A plot of something on a logarithmic axis against frequency, in an aspect ratio of IEC 60263. */
export function decadesOverFrequency(
  lines: readonly Pick<DrawnLine, 'runs'>[],
  width: number,
  size: ChartSize,
): Panel {
  const x = logAxis(lines, width);
  const [low, high] = percentDomain(lines);
  const { unitLength, span } = proportion({
    aspects: decadeAspects,
    span: Math.log10(high / low),
    decadeLength: width / Math.log10(x.domain[1] / x.domain[0]),
    height: size === 'wide' ? 280 : 230,
  });
  return { x, y: { kind: 'log', domain: [high / 10 ** span, high], length: span * unitLength }, top: 0 };
}

/** The percentages of some lines, opened to round values. */
export function percentDomain(lines: readonly Pick<DrawnLine, 'runs'>[]): [number, number] {
  const [low, high] = extent(lines.flatMap(({ runs }) => runs.flatMap(({ y }) => y))) ?? [0.01, 1];
  const [from, to] = roundLogDomain(low, high);
  return from < to ? [from, to] : [from / 2, to * 2];
}

/** The numbers of a plot of percentages, as they are printed. */
export const percentNumbers = ({ y }: Panel): string[] =>
  printedNumbers(logTicks(y, plainTick, true), plainTick);

/** The vertical channel of a plot of percentages; `named` values get a number of their own. */
export function percentChannel(
  field: string,
  panel: Panel,
  frame: Frame,
  text: { title: string; named?: number[] },
) {
  const ticks = logTicks(panel.y, plainTick, true);
  return yChannel(field, panel, {
    ticks: withNamed(ticks, panel.y, text.named ?? []),
    title: text.title,
    print: plainTick,
    left: frame.left,
    rows: frame.rows,
  });
}

/** A band of readings: the places, and ratios below and above. */
export interface Band {
  x: Readings;
  low: Readings;
  high: Readings;
  fill: string;
}

/** The upper edges of bands as lines without a name, so that axes can make room for them. */
export function upperEdges(bands: readonly Band[]): Pick<DrawnLine, 'runs'>[] {
  return bands.map(({ x, high }) => ({ runs: sortRatios(x, high).runs }));
}

/** Rows of a 95 % interval as a band; where it reaches zero the band goes down to the lower edge. */
export function bandRows({ x, low, high, fill }: Band, panel: Panel, id: number): Row[] {
  const floor = panel.y.domain[0];
  const lows = inPercent(low).map((value) => (value === null ? null : Math.max(value, floor)));
  const upper = sortRatios(x, high).runs;
  const lower = joined(sortReadings(x, lows, onLogAxes).runs);
  const lowAt = new Map(lower.x.map((place, i) => [place, lower.y[i] ?? floor]));
  return upper.flatMap((run, i) =>
    run.x.map((place, j) => ({
      x: place,
      high: run.y[j],
      low: lowAt.get(place) ?? floor,
      run: `${id}.${i}`,
      fill,
    })),
  );
}

/** Prints a ratio for a table whose unit is per cent. */
export const printPercent: Print = (ratio) => percent(ratio, 3).split('\u00a0')[0] ?? '';

function inPercent(ratio: Readings): (number | null)[] {
  return Array.from(ratio, (value) => (value === null ? null : value * 100));
}
