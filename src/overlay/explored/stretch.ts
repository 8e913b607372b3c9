import type { ExploredAxis, ExploredChart } from '../../charts/explored.ts';
import { extent } from '../../charts/readings.ts';

/** A part of a horizontal axis. */
export type Stretch = readonly [from: number, to: number];

/** The whole of a horizontal axis. */
export interface Whole {
  whole: Stretch;
  kind: ExploredAxis['kind'];
}

/** The narrowest stretch, as a share of the whole. */
const narrowest = 1 / 500;

/** Places nearer to each other than by this part of them are one, as an axis between them cannot be divided. */
const closest = 1e-9;

/** From the first place of a chart to its last. */
export function wholeOf({ panels, x: { kind } }: ExploredChart): Whole {
  const places = panels.flatMap(({ lines }) => lines.flatMap(({ runs }) => runs.flatMap(({ x }) => x)));
  const [low, high] = extent(places) ?? [1, 10];
  if (high - low > closest * Math.max(Math.abs(low), Math.abs(high))) return { whole: [low, high], kind };
  return { whole: kind === 'log' ? [low / 2, high * 2] : [low - 1, high + 1], kind };
}

/** A stretch made narrower (a factor below one) or wider about a place, which keeps its share of the width. */
export function zoomed(stretch: Stretch, factor: number, about: number, axis: Whole): Stretch {
  const { to, least, most } = scaleOf(axis);
  const [from, until] = [to(stretch[0]), to(stretch[1])];
  const width = Math.min(Math.max((until - from) * factor, least), most);
  const share = Math.min(1, Math.max(0, (to(about) - from) / (until - from)));
  return placed(to(about) - share * width, width, axis);
}

/** The stretch between two places in any order. */
export function stretchBetween(one: number, other: number, axis: Whole): Stretch {
  const { to, least, most } = scaleOf(axis);
  const [from, until] = [Math.min(to(one), to(other)), Math.max(to(one), to(other))];
  const width = Math.min(Math.max(until - from, least), most);
  return placed((from + until - width) / 2, width, axis);
}

/** The stretch itself where it holds a place; else one of its width with the place in its middle. */
export function holding(stretch: Stretch, place: number, axis: Whole): Stretch {
  if (place >= stretch[0] && place <= stretch[1]) return stretch;
  const { to } = scaleOf(axis);
  const width = to(stretch[1]) - to(stretch[0]);
  return placed(to(place) - width / 2, width, axis);
}

/** True for all of an axis. */
export const isWhole = (stretch: Stretch, { whole }: Whole): boolean =>
  stretch[0] <= whole[0] && stretch[1] >= whole[1];

function scaleOf({ whole, kind }: Whole) {
  const to = kind === 'log' ? Math.log : (value: number) => value;
  const back = kind === 'log' ? Math.exp : (value: number) => value;
  const most = to(whole[1]) - to(whole[0]);
  return { to, back, most, least: most * narrowest };
}

/** A stretch of a width that stays inside the whole, whose ends it meets exactly. */
function placed(from: number, width: number, axis: Whole): Stretch {
  const { to, back } = scaleOf(axis);
  const [low, high] = [to(axis.whole[0]), to(axis.whole[1])];
  const start = Math.min(Math.max(from, low), high - width);
  const tiny = (high - low) * 1e-9;
  return [
    start <= low + tiny ? axis.whole[0] : back(start),
    start + width >= high - tiny ? axis.whole[1] : back(start + width),
  ];
}
